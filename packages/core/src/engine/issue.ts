/** Why a network was refused or cannot be solved, as data. */
export interface EngineIssue {
  /**
   * - `data`: a number in the input is not legal; `path` says which.
   * - `floating`: the nodes around `node` have no way to earth or to the source.
   * - `no-earth`: the source's own part of the network has no way to earth, so no potential is defined.
   * - `range`: the values overflow or vanish in double precision.
   * - `unsettled`: the spark gaps did not settle in the allowed number of passes.
   */
  readonly code: 'data' | 'floating' | 'no-earth' | 'range' | 'unsettled';
  /** Where: `branchSiemens[3]`, `ports.plus`, `node 17`. */
  readonly path: string;
  readonly found: string;
  readonly expected: string;
  /** A node of the part at fault, where there is one. */
  readonly node?: number;
  /** How many nodes that part has. */
  readonly nodeCount?: number;
}

/** Thrown for illegal network data and for networks without a solution; `issue` says why. */
export class EngineError extends Error {
  readonly issue: EngineIssue;

  constructor(issue: EngineIssue) {
    super(`${issue.path}: found ${issue.found}, expected ${issue.expected}`);
    this.name = 'EngineError';
    this.issue = issue;
  }
}

/** An answer, or the reason why there is none. */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly issue: EngineIssue };

/** Throws an {@link EngineError} with code `data`. */
export function refuse(path: string, found: unknown, expected: string): never {
  throw new EngineError({ code: 'data', path, found: String(found), expected });
}
