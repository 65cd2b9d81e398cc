import { type PlanInput, parsePlan, type ResolvedPlan, solvePlan } from '@postvolt/core';

/** How a farm of the tests is made longer: written out, so that nothing of the study's own is used. */
export interface Lengths {
  /** Factors on the two runs. */
  readonly north: number;
  readonly lane: number;
  readonly target?: string;
  readonly change?: (plan: Fields) => void;
}

// biome-ignore lint/suspicious/noExplicitAny: a plan whose parts a test may change at will
type Fields = any;

/** Spans of each run at factor 1; posts are 12 m apart on both. */
export const spansOf = { north: 40, lane: 12 } as const;
const spacingM = 12;
const round = (at: number, factor: number) => Math.round(at * factor * 1e9) / 1e9;

/**
 * Two runs from a shed: north with a weedy stretch, a bad splice and a grounded strand, lane with a switch and a jumper.
 * What stands on a run keeps its place in proportion.
 */
export function farm({ north, lane, target, change }: Lengths): ResolvedPlan {
  const spans = (of: 'north' | 'lane', factor: number) => Math.max(1, Math.ceil(spansOf[of] * factor - 1e-9));
  const metres = (at: number, factor: number) => `${round(at, factor)} m`;
  const plan: Fields = {
    formatVersion: 1,
    units: 'metric',
    target: { volts: target ?? '2 kV' },
    soil: 'loam',
    energizer: { at: 'shed', class: '1 J', groundRods: { count: 3, length: '2 m', spacing: '3 m' } },
    junctions: ['shed', 'hill', 'creek'],
    builds: {
      cattle: {
        post: 'wood',
        postSpacing: `${spacingM} m`,
        wire: 'poly twine',
        strands: [
          { name: 'top', height: '85 cm' },
          { name: 'middle', height: '60 cm', role: 'grounded' },
          { name: 'low', height: '35 cm' },
        ],
      },
    },
    runs: {
      north: { from: 'shed', to: 'hill', length: metres(spansOf.north * spacingM, north), build: 'cattle' },
      lane: { from: 'shed', to: 'creek', length: metres(spansOf.lane * spacingM, lane), build: 'cattle' },
    },
    stretches: [
      {
        run: 'north',
        from: metres(150, north),
        to: metres(250, north),
        strands: ['low'],
        growth: 'heavy',
        growthHeight: '50 cm',
      },
    ],
    faults: [
      {
        kind: 'bad splice',
        run: 'north',
        span: Math.round(8.5 * (spans('north', north) / spansOf.north) - 0.5),
        strand: 'top',
      },
    ],
    switches: [{ run: 'lane', span: Math.round(3.5 * (spans('lane', lane) / spansOf.lane) - 0.5), openIn: [] }],
    jumpers: [{ run: 'lane', post: Math.round(0.5 * spans('lane', lane)), strands: ['top', 'low'] }],
    conditions: {
      summer: { soil: 'moist', surface: 'damp', growth: 'moderate', growthHeight: '45 cm' },
      storm: { soil: 'wet', surface: 'wet', growth: 'moderate', growthHeight: '60 cm' },
    },
  };
  change?.(plan);
  return parsePlan(plan as PlanInput);
}

/** Volts of the weakest post less the target, by a full solve. */
export const marginOf = (plan: ResolvedPlan, condition: string): number =>
  solvePlan(plan, { conditions: [condition] }).conditions[0]!.verdict.marginVolts;

/** The factor where a margin changes its sign, by plain halving between one where it holds and one where it does not. */
export function bisect(margin: (factor: number) => number, holds: number, fails: number, width: number): number {
  if (!(margin(holds) >= 0 && margin(fails) < 0))
    throw new Error('the bracket does not hold at one end and fail at the other');
  let [low, high] = [holds, fails];
  while (Math.abs(high - low) > width * Math.max(low, high)) {
    const middle = (low + high) / 2;
    if (margin(middle) >= 0) low = middle;
    else high = middle;
  }
  return low;
}
