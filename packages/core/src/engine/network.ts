/** The number that stands for remote earth, the reference of every potential, wherever a node number is expected. */
export const EARTH = -1;

/**
 * A resistive network as flat arrays: nodes are 0 to nodeCount − 1, conductances are in siemens.
 * A parallel branch and a branch of zero siemens (an open switch) are legal; a branch from a node to itself is not.
 */
export interface Network {
  readonly nodeCount: number;
  /** One end of each branch, a node number. */
  readonly branchFrom: Int32Array;
  /** The other end of each branch, a node number. */
  readonly branchTo: Int32Array;
  /** Conductance of each branch, S, zero or more. */
  readonly branchSiemens: Float64Array;
  /** Conductance from each node to remote earth, S, zero or more; length nodeCount. */
  readonly leakSiemens: Float64Array;
  /** The terminals of the source; `minus` may be `EARTH`. */
  readonly ports?: Ports | undefined;
  /** Node pairs whose mutual resistance is wanted (the hot and the grounded strand at a post). */
  readonly pairs?: NodePairs | undefined;
  /** Spark gaps; see {@link SparkGaps}. */
  readonly gaps?: SparkGaps | undefined;
}

/** The two terminals of the source, as node numbers; `minus` may be `EARTH`. */
export interface Ports {
  readonly plus: number;
  readonly minus: number;
}

/** Pairs of different nodes: pair i joins `a[i]` and `b[i]`. */
export interface NodePairs {
  readonly a: Int32Array;
  readonly b: Int32Array;
}

/**
 * Spark gaps: gap i lies between nodes `a[i]` and `b[i]` (`b[i]` may be `EARTH`) and carries
 * max(0, (|V| − volts[i]) / ohms[i]) with the sign of V, the potential of `a[i]` over `b[i]`.
 */
export interface SparkGaps {
  readonly a: Int32Array;
  readonly b: Int32Array;
  /** Spark-over voltage, V, zero or more. */
  readonly volts: Float64Array;
  /** Resistance once fired, Ω, more than zero. */
  readonly ohms: Float64Array;
}
