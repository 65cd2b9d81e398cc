export { rangeFigures as range } from '@postvolt/core';
