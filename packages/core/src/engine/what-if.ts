import { checkConductance, checkNode, checkNodes } from './check-network.js';
import { Circuit } from './circuit.js';
import { refuse } from './issue.js';
import { EARTH } from './network.js';
import { gapsAgree } from './spark-gaps.js';
import { acrossEnds, type Ends, isAccurate, updateOf } from './update-rounding.js';

/** One change of a solved circuit. */
export type Change =
  /** The branch takes another conductance, S; 0 opens it. */
  | { readonly kind: 'branch'; readonly branch: number; readonly siemens: number }
  /** The leak of a node takes another conductance to earth, S. */
  | { readonly kind: 'leak'; readonly node: number; readonly siemens: number }
  /** Something new of a conductance, S, is put between two nodes, or a node `a` and `b` = `EARTH`: a fault, an animal. */
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

/**
 * What the potentials would be after a few changes, mostly without factoring again: one solve a change (Sherman, Morrison
 * and Woodbury 1950). The source meets its curve exactly, also across a knee. The values are factored again where the
 * update would leave less than about nine digits, or where a spark gap changes its state.
 *
 * All changes are made at once to the circuit as it is; a branch or a leak may be named once only. The circuit is left as
 * it was. Throws an {@link EngineError} where the changed network has no solution.
 */
export function whatIf(circuit: Circuit, changes: readonly Change[], at?: ArrayLike<number>): ChangedState {
  const { nodeCount } = circuit.network;
  const ends = changes.map((change) => endsOf(circuit, change));
  if (at) checkNodes('at', at, nodeCount);
  const named = new Set<string>();
  for (const change of changes) {
    if (change.kind === 'add') continue;
    const name = change.kind === 'branch' ? `branch ${change.branch}` : `leak ${change.node}`;
    if (named.has(name)) refuse('changes', `${name} twice`, 'one change of each branch and leak');
    named.add(name);
  }
  const state = update(circuit, ends);
  const result = state ?? refactored(circuit, changes);
  return { ...result, volts: at ? Float64Array.from(at, (node) => result.volts[node]!) : result.volts };
}

/** The changed state by a low-rank update; undefined where it is not to be trusted. */
function update(circuit: Circuit, ends: readonly Ends[]): ChangedState | undefined {
  const { network, factor } = circuit;
  const { nodeCount, gaps } = network;
  const { inputSiemens, gapSign } = circuit.solve();
  const share = circuit.share();
  const offset = circuit.gapOffsetVolts();
  // Column i: potentials for one ampere from a to b of change i, with the terminals tied.
  const columns = ends.map(({ a, b }) => {
    const column = new Float64Array(nodeCount);
    column[a] = 1;
    if (b !== EARTH) column[b] = -1;
    factor.solve(column, column, Infinity);
    return column;
  });
  // (1 + K δ) y = volts across, with K the changes' mutual resistances.
  const matrix = ends.map((end, i) =>
    columns.map((column, j) => (i === j ? 1 : 0) + acrossEnds(column, end) * ends[j]!.delta),
  );
  const inverse = inverted(matrix);
  if (!inverse) return undefined;
  const ofShare = ends.map((end) => acrossEnds(share, end));
  const ofOffset = ends.map((end) => (offset ? acrossEnds(offset, end) : 0));
  // Volts across each change after all of them, for one volt between the terminals and from spark gaps.
  const newShare = product(inverse, ofShare);
  const newOffset = product(inverse, ofOffset);
  let siemens = inputSiemens;
  let offsetAmps = circuit.gapOffsetAmps();
  for (const [i, { delta }] of ends.entries()) {
    siemens += delta * ofShare[i]! * newShare[i]!;
    offsetAmps -= delta * ofShare[i]! * newOffset[i]!;
  }
  const point = circuit.source.meet(siemens, offsetAmps, { volts: 0, amps: 0, segment: 0 });
  if (ends.length > 1 || ends.some(({ delta }) => delta < 0)) {
    const tied = circuit.tiedInverse();
    const ohms = {
      inverse: inverse.flat(),
      acrossOhms: ends.map((end, i) => acrossEnds(columns[i]!, end)),
      endsOhms: ends.map(({ a, b }) => tied.sumOhms(a, b)),
    };
    const rounding = updateOf(ends, ohms, share, offset);
    if (!isAccurate(rounding, inputSiemens, siemens, offsetAmps, circuit.source, point)) return undefined;
  }
  const volts = share.map((sigma, node) => sigma * point.volts + (offset ? offset[node]! : 0));
  for (const [i, column] of columns.entries()) {
    const amps = ends[i]!.delta * (newShare[i]! * point.volts + newOffset[i]!);
    for (let node = 0; node < nodeCount; node++) volts[node]! -= column[node]! * amps;
  }
  if (gaps && !gapsAgree(network, volts, gapSign)) return undefined;
  return { volts, amps: point.amps, terminalVolts: point.volts, segment: point.segment, refactored: false };
}

/** The changed state of a fork with the changed values; what is new between two nodes is added to it by an update. */
function refactored(circuit: Circuit, changes: readonly Change[]): ChangedState {
  const fork = circuit.fork();
  const { leakSiemens } = fork.network;
  const rest: Ends[] = [];
  for (const change of changes) {
    if (change.kind === 'branch') fork.setBranchSiemens(change.branch, change.siemens);
    else if (change.kind === 'leak') fork.setLeakSiemens(change.node, change.siemens);
  }
  for (const change of changes) {
    if (change.kind !== 'add') continue;
    if (change.b === EARTH) fork.setLeakSiemens(change.a, leakSiemens[change.a]! + change.siemens);
    else rest.push({ a: change.a, b: change.b, delta: change.siemens });
  }
  const { volts, amps, terminalVolts, segment } = fork.solve();
  const state = rest.length === 0 ? { volts, amps, terminalVolts, segment } : update(fork, rest);
  return { ...(state ?? rebuilt(fork, rest)), refactored: true };
}

/** A circuit of its own with the new branches: only where they make a spark gap of the fork change its state. */
function rebuilt(circuit: Circuit, added: readonly Ends[]): Omit<ChangedState, 'refactored'> {
  const { network } = circuit;
  const { branchFrom, branchTo, branchSiemens } = network;
  return new Circuit(
    {
      ...network,
      branchFrom: Int32Array.from([...branchFrom, ...added.map((end) => end.a)]),
      branchTo: Int32Array.from([...branchTo, ...added.map((end) => end.b)]),
      branchSiemens: Float64Array.from([...branchSiemens, ...added.map((end) => end.delta)]),
    },
    circuit.source,
  ).solve();
}

function endsOf(circuit: Circuit, change: Change): Ends {
  const { branchFrom, branchTo, branchSiemens, leakSiemens, nodeCount } = circuit.network;
  const { siemens } = change;
  checkConductance('change.siemens', siemens);
  if (change.kind === 'branch') {
    const { branch } = change;
    if (!(branch in branchSiemens))
      refuse('change.branch', branch, `a branch number, 0 to ${branchSiemens.length - 1}`);
    return { a: branchFrom[branch]!, b: branchTo[branch]!, delta: siemens - branchSiemens[branch]! };
  }
  if (change.kind === 'leak') {
    checkNode('change.node', change.node, nodeCount);
    return { a: change.node, b: EARTH, delta: siemens - leakSiemens[change.node]! };
  }
  if (change.kind !== 'add') refuse('change.kind', (change as { kind: unknown }).kind, 'branch, leak or add');
  checkNode('change.a', change.a, nodeCount);
  checkNode('change.b', change.b, nodeCount, true);
  if (change.a === change.b) refuse('change.b', change.b, 'another node than change.a');
  return { a: change.a, b: change.b, delta: siemens };
}

/**
 * The inverse of the small matrix 1 + K δ, which is overwritten; undefined where it has none.
 * Pivots stay on the diagonal, the only entries that can be told large from small: the rest have each change's own scale.
 */
function inverted(matrix: number[][]): number[][] | undefined {
  const n = matrix.length;
  const inverse = matrix.map((_, i) => matrix.map((_, j) => (i === j ? 1 : 0)));
  const left = new Set(matrix.keys());
  while (left.size > 0) {
    let k = -1;
    for (const i of left) if (k < 0 || Math.abs(matrix[i]![i]!) > Math.abs(matrix[k]![k]!)) k = i;
    left.delete(k);
    const pivot = matrix[k]![k]!;
    if (pivot === 0) return undefined;
    for (const rows of [matrix, inverse]) rows[k] = rows[k]!.map((value) => value / pivot);
    for (let i = 0; i < n; i++) {
      const ratio = matrix[i]![k]!;
      if (i === k || ratio === 0) continue;
      for (const rows of [matrix, inverse]) rows[i] = rows[i]!.map((value, j) => value - ratio * rows[k]![j]!);
    }
  }
  return inverse;
}

function product(matrix: number[][], vector: number[]): number[] {
  return matrix.map((row) => row.reduce((sum, value, j) => sum + value * vector[j]!, 0));
}
