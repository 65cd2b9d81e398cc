import { nearest } from '@postvolt/core';

/** ` Did you mean "soils"?` after a list of the known names; nothing where none is near. */
export function meant(name: string, known: readonly string[]): string {
  const near = nearest(name, known);
  return near === null ? '' : ` Did you mean "${near}"?`;
}
