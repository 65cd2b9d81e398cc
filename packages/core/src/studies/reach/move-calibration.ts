import type { Calibration } from '../../plan/calibration.js';
import type { ResolvedPlan } from '../../plan/resolved.js';

/** The growth of a run, or of the part of it that begins at a distance, in metres rounded as the network's groups have them. */
const growthKey = (run: string, fromM: number): string => `growth|${run} from ${Math.round(fromM)} m`;

/** Distance in the key of a run's growth; null for other keys. */
function growthFrom(key: string, run: string): number | null {
  const lead = `growth|${run} from `;
  if (!key.startsWith(lead) || !key.endsWith(' m')) return null;
  const metres = Number(key.slice(lead.length, -2));
  return Number.isFinite(metres) ? metres : null;
}

/** Groups under other keys, some under several. */
function regroup({ groups, correlation }: Calibration, keysOf: (key: string) => readonly string[]): Calibration {
  const kept = groups.flatMap((group, g) => keysOf(group.key).map((key) => ({ g, group: { ...group, key } })));
  return {
    groups: kept.map(({ group }) => group),
    correlation: kept.map((a) => kept.map((b) => correlation[a.g]![b.g]!)),
  };
}

/** What readings have told of a run's parts, where the run has become so many times as long. */
export function stretchCalibration(plan: ResolvedPlan, ratios: ReadonlyMap<string, number>): Calibration | null {
  if (plan.calibration === null) return null;
  return regroup(plan.calibration, (key) => {
    for (const [run, ratio] of ratios) {
      const rounded = growthFrom(key, run);
      if (rounded === null) continue;
      const exact = breaksOf(plan, run).find((at) => Math.round(at) === rounded) ?? rounded;
      return [growthKey(run, exact * ratio)];
    }
    return [key];
  });
}

/** What readings have told of a run, where it was split into itself and a part beyond. */
export function splitCalibration(plan: ResolvedPlan, run: string, beyond: string, splitM: number): Calibration | null {
  const { calibration } = plan;
  if (calibration === null) return null;
  const known = new Set(calibration.groups.map(({ key }) => key));
  const starts = calibration.groups.flatMap(({ key }) => growthFrom(key, run) ?? []);
  // The part of the growth that the split cuts in two goes on beyond it.
  const cut = Math.max(...starts.filter((at) => at <= splitM));
  return regroup(calibration, (key) => {
    if (key === `film|${run}`) return [key, `film|${beyond}`];
    const whole = [`growth|${beyond}`, growthKey(beyond, 0)];
    if (key === `growth|${run}`) return [key, growthKey(run, 0), ...whole].filter((k) => k === key || !known.has(k));
    const from = growthFrom(key, run);
    if (from === null) return [key];
    if (from > splitM) return [growthKey(beyond, from - splitM)];
    const first = from === 0 && !known.has(`growth|${run}`) ? [key, `growth|${run}`] : [key];
    return from === cut ? [...first, ...whole] : first;
  });
}

/** Places along a run where its growth may change. */
const breaksOf = (plan: ResolvedPlan, run: string): number[] =>
  plan.stretches.flatMap((stretch) => (stretch.run === run ? [stretch.fromM, stretch.toM ?? stretch.fromM] : []));
