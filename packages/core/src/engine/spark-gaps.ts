import type { EngineIssue } from './issue.js';
import { EARTH, type Network } from './network.js';
import type { SourceCurve } from './source-curve.js';
import { gapVolts } from './trust.js';

/** How far a gap's voltage may stand on the wrong side of its threshold, relative to it: rounding, no more. */
export const SIDE = 1e-13;
const MOST_PASSES = 500;

/** A state of the network. */
export interface Potentials {
  readonly volts: Float64Array;
  readonly terminalVolts: number;
}

interface State extends Potentials {
  readonly gapSign: Int8Array;
}

/**
 * Finds which spark gaps fire.
 *
 * The network's content (G. Millar 1951), a convex function of the potentials, is least at the one solution. Every pass
 * solves with the gaps as they stand at the present potentials and goes towards that answer no farther than the
 * content falls; it is piecewise quadratic, so the passes end. Leaves `state` solved.
 */
export function settleGaps(
  network: Network,
  source: SourceCurve,
  state: State,
  solveFor: (signs: Int8Array) => EngineIssue | undefined,
): EngineIssue | undefined {
  const signs = state.gapSign;
  signs.fill(0);
  let issue = solveFor(signs);
  if (issue) return issue;
  let at: Potentials = { volts: state.volts.slice(), terminalVolts: state.terminalVolts };
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    for (let i = 0; i < signs.length; i++) signs[i] = signAt(network, at.volts, i);
    issue = solveFor(signs);
    if (issue) return issue;
    if (gapsAgree(network, state.volts, signs)) return undefined;
    at = stepTowards(network, source, at, state);
  }
  return {
    code: 'unsettled',
    path: 'gaps',
    found: `spark gaps still changing after ${MOST_PASSES} passes`,
    expected: 'a state in which every gap obeys its law',
  };
}

function signAt(network: Network, volts: Float64Array, gap: number): number {
  const across = gapVolts(network, volts, gap);
  return Math.abs(across) > network.gaps!.volts[gap]! ? Math.sign(across) : 0;
}

/** Whether every gap is, but for rounding, on the side of its threshold that its sign says. */
export function gapsAgree(network: Network, volts: Float64Array, signs: Int8Array): boolean {
  const { a, b, volts: threshold } = network.gaps!;
  for (let i = 0; i < signs.length; i++) {
    const across = gapVolts(network, volts, i);
    const over = signs[i] === 0 ? Math.abs(across) - threshold[i]! : threshold[i]! - signs[i]! * across;
    const scale = threshold[i]! + Math.abs(volts[a[i]!]!) + (b[i] === EARTH ? 0 : Math.abs(volts[b[i]!]!));
    if (over > SIDE * scale) return false;
  }
  return true;
}

/** The point between two states where the content is least; `to` where it falls all the way. */
export function stepTowards(network: Network, source: SourceCurve, from: Potentials, to: Potentials): Potentials {
  const slope = contentSlope(network, source, from, to);
  const breaks = [0, ...breakpoints(network, source, from, to), 1];
  let low = 0;
  let high = breaks.length - 1;
  let slopeHigh = slope(1);
  let step = 1;
  if (slopeHigh > 0) {
    let slopeLow = slope(0);
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      const here = slope(breaks[middle]!);
      if (here > 0) {
        high = middle;
        slopeHigh = here;
      } else {
        low = middle;
        slopeLow = here;
      }
    }
    const [start, end] = [breaks[low]!, breaks[high]!];
    step = slopeLow < 0 ? start + (end - start) * (slopeLow / (slopeLow - slopeHigh)) : start;
  }
  return {
    volts: from.volts.map((volts, i) => volts + step * (to.volts[i]! - volts)),
    terminalVolts: from.terminalVolts + step * (to.terminalVolts - from.terminalVolts),
  };
}

/** The content's derivative along the way from one state (t = 0) to another (t = 1): piecewise linear and rising. */
function contentSlope(network: Network, source: SourceCurve, from: Potentials, to: Potentials): (t: number) => number {
  const { branchFrom, branchTo, branchSiemens, leakSiemens, gaps } = network;
  const way = to.volts.map((volts, i) => volts - from.volts[i]!);
  let atStart = 0;
  let growth = 0;
  for (let i = 0; i < way.length; i++) {
    atStart += leakSiemens[i]! * from.volts[i]! * way[i]!;
    growth += leakSiemens[i]! * way[i]! ** 2;
  }
  for (let e = 0; e < branchSiemens.length; e++) {
    const [a, b] = [branchFrom[e]!, branchTo[e]!];
    const along = way[a]! - way[b]!;
    atStart += branchSiemens[e]! * (from.volts[a]! - from.volts[b]!) * along;
    growth += branchSiemens[e]! * along ** 2;
  }
  const { volts: threshold, ohms } = gaps!;
  const start = Float64Array.from(ohms, (_, i) => gapVolts(network, from.volts, i));
  const along = Float64Array.from(ohms, (_, i) => gapVolts(network, way, i));
  const terminalWay = to.terminalVolts - from.terminalVolts;
  return (t) => {
    let sum = atStart + growth * t;
    for (let i = 0; i < ohms.length; i++) {
      const across = start[i]! + t * along[i]!;
      const over = Math.abs(across) - threshold[i]!;
      if (over > 0) sum += ((Math.sign(across) * over) / ohms[i]!) * along[i]!;
    }
    // An ideal source holds its volts: the way keeps to them, and its current does no work along it.
    if (terminalWay !== 0) sum -= source.ampsAt(from.terminalVolts + t * terminalWay) * terminalWay;
    return sum;
  };
}

/** Where between 0 and 1 the derivative bends: a gap at its threshold, the source at a knee; sorted. */
function breakpoints(network: Network, source: SourceCurve, from: Potentials, to: Potentials): Float64Array {
  const found: number[] = [];
  const add = (start: number, end: number, level: number) => {
    const t = (level - start) / (end - start);
    if (t > 0 && t < 1) found.push(t);
  };
  const threshold = network.gaps!.volts;
  for (let i = 0; i < threshold.length; i++) {
    const [start, end] = [gapVolts(network, from.volts, i), gapVolts(network, to.volts, i)];
    add(start, end, threshold[i]!);
    add(start, end, -threshold[i]!);
  }
  for (const knee of source.volts.subarray(1)) add(from.terminalVolts, to.terminalVolts, knee);
  return Float64Array.from(found).sort();
}
