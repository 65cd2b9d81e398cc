import { impulseLimit, impulseLimitAmps, impulseLimitAmpsRange, impulseLimits } from '@postvolt/tables';
import type { OpenFence } from '../fence/open-fence.js';
import type { Issue } from '../issue.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { formatAmps, formatLeakPerLength, formatSeconds, formatVolts } from '../quantity/format.js';
import type { PostResult, WeakestPost } from './result.js';

const warn = (code: string, path: Issue['path'], found: string, expected: string, hint: string): Issue => ({
  code,
  severity: 'warning',
  path,
  found,
  expected,
  hint,
  at: null,
});

/** Leak under which the line's capacitance, which the network leaves out, loads the energizer more than the leak does. */
const cleanSiemensPerMetre = 1e-7;
/** Fences shorter than this charge too little line for it to matter. */
const longFenceM = 3000;

/** Share of its body in the animal's path under which the ground it stands on is said to starve it. */
export const starvedShare = 0.5;

/** What the doubts about a condition are read from. */
export interface ConditionFacts {
  readonly posts: readonly PostResult[];
  readonly deadPosts: readonly string[];
  readonly weakest: WeakestPost;
}

function meanVolts(posts: readonly PostResult[]): number {
  let sum = 0;
  let count = 0;
  for (const { strands } of posts) {
    for (const { status, voltsToEarth } of strands) {
      if (status !== 'live') continue;
      sum += voltsToEarth;
      count++;
    }
  }
  return sum / count;
}

/** Doubts about one condition's numbers. */
export function conditionWarnings(fence: OpenFence, { deadPosts, weakest, posts }: ConditionFacts): Issue[] {
  const { circuit, plan } = fence;
  const bodyShare = fence.animal.bodyShare[fence.lowest().node]!;
  const runM = plan.runs.reduce((sum, { lengthM }) => sum + lengthM, 0);
  const warnings: Issue[] = [];
  const path = ['conditions', fence.condition.id];
  if (deadPosts.length > 0) {
    warnings.push(
      warn(
        'dead-posts',
        path,
        `${deadPosts.length} posts without a way to the energizer, from ${deadPosts[0]} on`,
        'every hot strand fed',
        'Mend the fault, or feed the part from its other end.',
      ),
    );
  }
  const { voltsToEarth, animalVolts, postId } = weakest;
  if (bodyShare < starvedShare && plan.target.of === 'to earth') {
    warnings.push(
      warn(
        'starved-animal',
        path,
        `${formatVolts(animalVolts)} across the animal of the ${formatVolts(voltsToEarth)} on the wire at ${postId}`,
        'most of them across the animal',
        'The ground under its feet keeps more than the animal gets. A grounded strand beside the hot one gives the current a better way back.',
      ),
    );
  }
  const perLength = (siemensPerMetre: number) => formatLeakPerLength(siemensPerMetre, plan.units, 1);
  const { amps, segment } = fence.solution;
  const leak = amps / meanVolts(posts) / runM;
  if (runM >= longFenceM && leak < cleanSiemensPerMetre) {
    warnings.push(
      warn(
        'long-clean-fence',
        path,
        `a leak of ${perLength(leak)} of fence`,
        `${perLength(cleanSiemensPerMetre)} or more, for volts within about 12 %`,
        'On a long clean fence the wire charges like a capacitor, which is left out here: true volts can be a quarter lower at the far end and half as high at the energizer.',
      ),
    );
  }
  const last = circuit.source.amps.length - 1;
  if (last > 0 && segment === last - 1 && amps > circuit.source.amps[last]!) {
    warnings.push(
      warn(
        'beyond-curve',
        path,
        `${formatAmps(amps)} drawn from the energizer`,
        `at most the ${formatAmps(circuit.source.amps[last]!)} of its heaviest test load`,
        `The curve was extended beyond its last point (${formatVolts(circuit.source.volts[last]!)}).`,
      ),
    );
  }
  return warnings;
}

/** IEC 60335-2-76's limits, as far as the plan's data go; they are type-test limits on the energizer. */
export function energizerWarnings(plan: ResolvedPlan): Issue[] {
  const { joules, pulseWidthS, pulsesPerSecond } = plan.energizer;
  const warnings: Issue[] = [];
  const over = (field: string, found: string, expected: string, hint = '') => {
    const note = 'A type-test limit of IEC 60335-2-76; ask the maker for the test report.';
    warnings.push(warn('iec-60335-2-76', ['energizer', field], found, expected, `${hint} ${note}`.trim()));
  };
  if (pulsesPerSecond !== null && pulsesPerSecond > impulseLimits.perSecond)
    over('pulsesPerSecond', `${pulsesPerSecond} pulses a second`, 'at most one a second');
  if (pulseWidthS !== null && pulseWidthS > impulseLimits.durationS)
    over('pulseWidth', formatSeconds(pulseWidthS), 'at most 10 ms into 500 Ω');
  if (joules !== null && joules > impulseLimits.joules) {
    if (pulseWidthS === null) {
      over(
        'joules',
        `${joules} J into 500 Ω`,
        'at most 5 J, unless its current is limited',
        'Give its pulse width to check that.',
      );
    } else {
      // Above 5 J the energizer must be current-limited: compare the r.m.s. current that its own joules and width make.
      const amps = Math.sqrt((0.95 * joules) / (impulseLimits.loadOhms * pulseWidthS));
      const longest = impulseLimit(impulseLimitAmpsRange.low);
      const limit = impulseLimitAmps(Math.min(pulseWidthS, longest));
      if (amps > limit) {
        over(
          'joules',
          `${joules} J in ${formatSeconds(pulseWidthS)}, some ${formatAmps(amps)} r.m.s.`,
          `at most ${formatAmps(limit)} for that width`,
        );
      }
    }
  }
  if (joules === null && pulseWidthS === null && pulsesPerSecond === null) {
    warnings.push(
      warn(
        'iec-not-checked',
        ['energizer'],
        'no joules, pulse width or rate',
        'them, to check the limits of IEC 60335-2-76',
        'The limits were not checked: peak volts alone show neither compliance nor breach.',
      ),
    );
  }
  return warnings;
}
