import { Circuit } from './circuit.js';
import { refuse } from './issue.js';
import { EARTH } from './network.js';
import type { OperatingPoint } from './source-curve.js';

/** One change of a solved circuit. */
export type Change =
  /** The branch takes another conductance, S; 0 opens it. */
  | { readonly kind: 'branch'; readonly branch: number; readonly siemens: number }
  /** The leak of a node takes another conductance to earth, S. */
  | { readonly kind: 'leak'; readonly node: number; readonly siemens: number }
  /** Something new of a conductance, S, is put between two nodes, or a node and `EARTH`: a fault, an animal. */
  | { readonly kind: 'add'; readonly a: number; readonly b: number; readonly siemens: number };

/** The circuit as it would be after the changes. */
export interface ChangedState {
  /** Volts of the nodes asked for, in their order; of every node if none were named. */
  readonly volts: Float64Array;
  readonly amps: number;
  readonly terminalVolts: number;
  readonly segment: number;
  /** Whether the values had to be factored again, to keep the digits (a branch opened that carries nearly everything). */
  readonly refactored: boolean;
}

/** Digits that an update may lose before the values are factored again instead. */
const LOST_DIGITS = 1e4;

/**
 * What the potentials would be after a few changes, without factoring again: one solve a change (Sherman, Morrison and
 * Woodbury 1950). The source meets its curve exactly, also across a knee; spark gaps stay as they are.
 *
 * The circuit is left as it was. Throws an {@link EngineError} where the changed network has no solution.
 */
export function whatIf(circuit: Circuit, changes: readonly Change[], at?: ArrayLike<number>): ChangedState {
  const state = update(circuit, changes, at);
  return state ?? refactored(circuit, changes, at);
}

function update(
  circuit: Circuit,
  changes: readonly Change[],
  at: ArrayLike<number> | undefined,
): ChangedState | undefined {
  const { network, factor } = circuit;
  const { nodeCount } = network;
  const { inputSiemens } = circuit.solve();
  const share = circuit.share();
  const offset = circuit.gapOffsetVolts();
  const rank = changes.length;
  const ends = changes.map((change) => endsOf(circuit, change));
  const across = (x: Float64Array, i: number) => x[ends[i]!.a]! - (ends[i]!.b === EARTH ? 0 : x[ends[i]!.b]!);
  // Column i: potentials for one ampere from a to b of change i, with the terminals tied.
  const columns = ends.map(({ a, b }) => {
    const column = new Float64Array(nodeCount);
    column[a] = 1;
    if (b !== EARTH) column[b] = -1;
    factor.solve(column, column, Infinity);
    return column;
  });
  // (1/δ + K) y = potentials across, K the mutual resistances of the changes; scaled by δ so that δ = 0 is legal.
  const matrix = ends.map((_, i) => columns.map((column, j) => (i === j ? 1 : 0) + across(column, i) * ends[j]!.delta));
  const ofShare = ends.map((_, i) => across(share, i));
  const ofOffset = offset && ends.map((_, i) => across(offset, i));
  if (!eliminateDense(matrix, ofShare, ofOffset)) return undefined;
  let siemens = inputSiemens;
  let offsetAmps = circuit.gapOffsetAmps();
  for (let i = 0; i < rank; i++) {
    const current = ends[i]!.delta * across(share, i);
    siemens += current * ofShare[i]!;
    if (ofOffset) offsetAmps -= current * ofOffset[i]!;
  }
  const point = circuit.source.meet(siemens, offsetAmps, { volts: 0, amps: 0, segment: 0 } as OperatingPoint);
  const count = at ? at.length : nodeCount;
  const volts = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    const node = at ? at[n]! : n;
    let sum = share[node]! * point.volts + (offset ? offset[node]! : 0);
    for (let i = 0; i < rank; i++) {
      const amps = ends[i]!.delta * (ofShare[i]! * point.volts + (ofOffset ? ofOffset[i]! : 0));
      sum -= columns[i]![node]! * amps;
    }
    volts[n] = sum;
  }
  return { volts, amps: point.amps, terminalVolts: point.volts, segment: point.segment, refactored: false };
}

function endsOf(circuit: Circuit, change: Change): { a: number; b: number; delta: number } {
  const { branchFrom, branchTo, branchSiemens, leakSiemens, nodeCount } = circuit.network;
  const { siemens } = change;
  if (!(siemens >= 0 && siemens < Infinity)) refuse('change.siemens', siemens, 'a finite conductance, 0 S or more');
  const node = (path: string, value: number, earth: boolean) => {
    if (!(earth && value === EARTH) && !(Number.isInteger(value) && value >= 0 && value < nodeCount)) {
      refuse(path, value, `a node number, 0 to ${nodeCount - 1}${earth ? ', or EARTH (-1)' : ''}`);
    }
  };
  if (change.kind === 'branch') {
    const { branch } = change;
    if (!(branch in branchSiemens))
      refuse('change.branch', branch, `a branch number, 0 to ${branchSiemens.length - 1}`);
    return { a: branchFrom[branch]!, b: branchTo[branch]!, delta: siemens - branchSiemens[branch]! };
  }
  if (change.kind === 'leak') {
    node('change.node', change.node, false);
    return { a: change.node, b: EARTH, delta: siemens - leakSiemens[change.node]! };
  }
  node('change.a', change.a, false);
  node('change.b', change.b, true);
  if (change.a === change.b) refuse('change.b', change.b, 'another node than change.a');
  return { a: change.a, b: change.b, delta: siemens };
}

/** Solves matrix · y = each right side in place, by rows with the largest pivot; false where too many digits would be lost. */
function eliminateDense(matrix: number[][], ...sides: (number[] | undefined)[]): boolean {
  const n = matrix.length;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(matrix[i]![k]!) > Math.abs(matrix[pivot]![k]!)) pivot = i;
    if (!(Math.abs(matrix[pivot]![k]!) * LOST_DIGITS > 1)) return false;
    [matrix[k], matrix[pivot]] = [matrix[pivot]!, matrix[k]!];
    for (const side of sides) if (side) [side[k], side[pivot]] = [side[pivot]!, side[k]!];
    for (let i = k + 1; i < n; i++) {
      const ratio = matrix[i]![k]! / matrix[k]![k]!;
      for (let j = k; j < n; j++) matrix[i]![j]! -= ratio * matrix[k]![j]!;
      for (const side of sides) if (side) side[i]! -= ratio * side[k]!;
    }
  }
  for (const side of sides) {
    if (!side) continue;
    for (let i = n - 1; i >= 0; i--) {
      for (let j = i + 1; j < n; j++) side[i]! -= matrix[i]![j]! * side[j]!;
      side[i]! /= matrix[i]![i]!;
    }
  }
  return true;
}

/** The changed values in a circuit of their own. */
function refactored(circuit: Circuit, changes: readonly Change[], at: ArrayLike<number> | undefined): ChangedState {
  const { network } = circuit;
  const branchSiemens = network.branchSiemens.slice();
  const leakSiemens = network.leakSiemens.slice();
  const from = [...network.branchFrom];
  const to = [...network.branchTo];
  const added: number[] = [];
  for (const change of changes) {
    if (change.kind === 'branch') branchSiemens[change.branch] = change.siemens;
    else if (change.kind === 'leak') leakSiemens[change.node] = change.siemens;
    else if (change.b === EARTH) leakSiemens[change.a]! += change.siemens;
    else {
      from.push(change.a);
      to.push(change.b);
      added.push(change.siemens);
    }
  }
  const changed = new Circuit(
    {
      ...network,
      branchFrom: Int32Array.from(from),
      branchTo: Int32Array.from(to),
      branchSiemens: Float64Array.from([...branchSiemens, ...added]),
      leakSiemens,
    },
    circuit.source,
  );
  const { volts, amps, terminalVolts, segment } = changed.solve();
  return {
    volts: at ? Float64Array.from(at, (node) => volts[node]!) : volts,
    amps,
    terminalVolts,
    segment,
    refactored: true,
  };
}
