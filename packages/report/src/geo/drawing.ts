import type { Path, Point } from './point.js';

/** Where the runs and junctions of a plan lie in a drawing, before it is fitted to a page. */
export interface FenceDrawing {
  /** From coordinates, in metres with north up; or made up from the lengths alone. */
  readonly kind: 'placed' | 'schematic';
  readonly runs: ReadonlyMap<string, Path>;
  readonly junctions: ReadonlyMap<string, Point>;
}
