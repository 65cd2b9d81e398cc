import type { Analysis } from './analyse.js';
import { BAND, CHAIN, STRAND } from './runs.js';

/** What the numeric part reads and writes. */
export interface Mesh {
  readonly analysis: Analysis;
  /** Per slot w = g/S. */
  readonly share: Float64Array;
  /** Per position 1/S. */
  readonly inverse: Float64Array;
  /** Per position, the leak left by columns outside its run; zero again once it is taken. */
  readonly inbox: Float64Array;
  /** Per slot, the branch left by columns outside its run; zero again once it is taken. */
  readonly slotInbox: Float64Array;
}

/**
 * Eliminates every column but the terminals', one loop for each kind of run.
 *
 * Everywhere d is a node's leak, g its branches, S = d + Σ g their sum and w = g/S. Running values of the next column are
 * carried in locals. Returns false if a column without slots has no leak.
 */
export function eliminateColumns(mesh: Mesh, branchSiemens: Float64Array, leakSiemens: Float64Array): boolean {
  const { runs } = mesh.analysis;
  let grounded = true;
  for (let r = 0; r < runs.length; r += 3) {
    const kind = runs[r + 2]!;
    if (kind === STRAND) meshStrand(mesh, branchSiemens, leakSiemens, runs[r]!, runs[r + 1]!);
    else if (kind === CHAIN) meshChain(mesh, branchSiemens, leakSiemens, runs[r]!, runs[r + 1]!);
    else if (kind === BAND) meshBand(mesh, branchSiemens, leakSiemens, runs[r]!, runs[r + 1]!);
    else if (!meshStars(mesh, branchSiemens, leakSiemens, runs[r]!, runs[r + 1]!)) grounded = false;
  }
  return grounded;
}

/** Columns of one slot to the next position. */
function meshStrand(
  mesh: Mesh,
  branchSiemens: Float64Array,
  leakSiemens: Float64Array,
  first: number,
  end: number,
): void {
  const { order, start, row, slotBranch } = mesh.analysis;
  const { share, inverse, inbox, slotInbox } = mesh;
  let s = start[first]!;
  let carried = take(inbox, first);
  let branchCarried = take(slotInbox, s);
  for (let k = first; k < end; k++, s++) {
    const branch = slotBranch[s]!;
    const g = branch >= 0 ? branchSiemens[branch]! + branchCarried : branchCarried;
    const d = leakSiemens[order[k]!]! + carried;
    const sum = d + g;
    carried = (d * g) / sum;
    branchCarried = 0;
    const inv = 1 / sum;
    inverse[k] = inv;
    share[s] = g * inv;
  }
  inbox[row[s - 1]!]! += carried;
}

/** Columns of two slots, to the next position and to one that stays the same. */
function meshChain(
  mesh: Mesh,
  branchSiemens: Float64Array,
  leakSiemens: Float64Array,
  first: number,
  end: number,
): void {
  const { order, start, slotBranch } = mesh.analysis;
  const { share, inverse, inbox, slotInbox } = mesh;
  let s = start[first]!;
  let carried = take(inbox, first);
  let nearCarried = take(slotInbox, s);
  let farCarried = take(slotInbox, s + 1);
  let farLeak = 0;
  // What the column before adds to S, in one product: S follows on S, and the fewer steps between, the sooner.
  let sent = carried + farCarried;
  for (let k = first; k < end; k++, s += 2) {
    const near = slotBranch[s]!;
    const far = slotBranch[s + 1]!;
    const leak = leakSiemens[order[k]!]!;
    const g = near >= 0 ? branchSiemens[near]! + nearCarried : nearCarried;
    const farOwn = far >= 0 ? branchSiemens[far]! : 0;
    const d = leak + carried;
    const gFar = farOwn + farCarried;
    const inv = 1 / (leak + g + farOwn + sent);
    sent = g * (d + gFar) * inv;
    const w = g * inv;
    const wFar = gFar * inv;
    carried = w * d;
    nearCarried = 0;
    farCarried = w * gFar;
    farLeak += wFar * d;
    inverse[k] = inv;
    share[s] = w;
    share[s + 1] = wFar;
  }
  handOver(mesh, s - 2, carried, farLeak, farCarried);
}

/** Columns of two slots, to the next two positions. */
function meshBand(
  mesh: Mesh,
  branchSiemens: Float64Array,
  leakSiemens: Float64Array,
  first: number,
  end: number,
): void {
  const { order, start, slotBranch } = mesh.analysis;
  const { share, inverse, inbox, slotInbox } = mesh;
  let s = start[first]!;
  let carried = take(inbox, first);
  let nextCarried = 0;
  let nearCarried = take(slotInbox, s);
  let farCarried = take(slotInbox, s + 1);
  for (let k = first; k < end; k++, s += 2) {
    const near = slotBranch[s]!;
    const far = slotBranch[s + 1]!;
    const d = leakSiemens[order[k]!]! + carried;
    const g = near >= 0 ? branchSiemens[near]! + nearCarried : nearCarried;
    const gFar = far >= 0 ? branchSiemens[far]! + farCarried : farCarried;
    const inv = 1 / (d + g + gFar);
    const w = g * inv;
    const wFar = gFar * inv;
    carried = nextCarried + w * d;
    nextCarried = wFar * d;
    nearCarried = w * gFar;
    farCarried = 0;
    inverse[k] = inv;
    share[s] = w;
    share[s + 1] = wFar;
  }
  handOver(mesh, s - 2, carried, nextCarried, nearCarried);
}

/** Columns of any slots; false if one of them has neither leak nor branch. */
function meshStars(
  mesh: Mesh,
  branchSiemens: Float64Array,
  leakSiemens: Float64Array,
  first: number,
  end: number,
): boolean {
  const { order, start, row, slotBranch } = mesh.analysis;
  const { share, inverse, inbox, slotInbox } = mesh;
  let grounded = true;
  for (let k = first; k < end; k++) {
    const from = start[k]!;
    const to = start[k + 1]!;
    const d = leakSiemens[order[k]!]! + take(inbox, k);
    let sum = d;
    for (let s = from; s < to; s++) {
      const branch = slotBranch[s]!;
      const g = take(slotInbox, s) + (branch >= 0 ? branchSiemens[branch]! : 0);
      share[s] = g;
      sum += g;
    }
    if (!(sum > 0)) grounded = false;
    const inv = 1 / sum;
    inverse[k] = inv;
    for (let s = from; s < to; s++) {
      const w = share[s]! * inv;
      const i = row[s]!;
      inbox[i]! += w * d;
      // Column i holds every later neighbour of k, in the same rising order.
      let t = start[i]!;
      for (let u = s + 1; u < to; u++, t++) {
        const j = row[u]!;
        while (row[t] !== j) t++;
        slotInbox[t]! += w * share[u]!;
      }
      share[s] = w;
    }
  }
  return grounded;
}

function take(inbox: Float64Array, index: number): number {
  const value = inbox[index]!;
  inbox[index] = 0;
  return value;
}

/** Hands what the last column of a run leaves to the two positions of its slots s and s + 1, and to the slot between them. */
function handOver(mesh: Mesh, s: number, leak: number, farLeak: number, branch: number): void {
  const { start, row } = mesh.analysis;
  const near = row[s]!;
  const far = row[s + 1]!;
  mesh.inbox[near]! += leak;
  mesh.inbox[far]! += farLeak;
  let t = start[near]!;
  while (row[t] !== far) t++;
  mesh.slotInbox[t]! += branch;
}
