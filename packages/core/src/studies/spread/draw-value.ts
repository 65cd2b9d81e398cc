export { drawValue, endOfRange } from '../../network/draw-value.js';
