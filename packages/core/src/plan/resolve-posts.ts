import type { Issue } from '../issue.js';
import { formatPlace, type UnitSystem } from '../quantity/format.js';
import type { Reporter } from './reporter.js';
import type { ResolvedRun } from './resolved.js';
import type { Plan } from './schema.js';

type RunInput = Plan['runs'][string];

/** Where a run stands in the plan, and how to speak of it. */
interface Context {
  readonly path: Issue['path'];
  readonly units: UnitSystem;
  readonly report: Reporter;
}

/** A millimetre: closer than that a position is the run's end. */
const sameM = 1e-3;

/** Posts of a run: equal spans no longer than its spacing or the usual one, or listed places with both ends put in. */
export function resolvePosts(input: RunInput, lengthM: number, usualM: number, context: Context): ResolvedRun['posts'] {
  if (input.posts === undefined) return { kind: 'equal', spacingM: input.postSpacing ?? usualM };
  const { path, report } = context;
  if (input.postSpacing !== undefined) {
    report.error('one-of', [...path, 'posts'], 'both `posts` and `postSpacing`', 'one of them');
  }
  reportPlaces(input.posts, lengthM, context);
  const positions = [...input.posts];
  if (positions.length === 0 || positions[0]! > sameM) positions.unshift(0);
  positions[0] = 0;
  if (positions.length === 1 || positions.at(-1)! < lengthM - sameM) positions.push(lengthM);
  positions[positions.length - 1] = lengthM;
  return { kind: 'at', positionsM: positions };
}

function reportPlaces(places: readonly number[], lengthM: number, { path, units, report }: Context): void {
  const say = (metres: number) => formatPlace(metres, units);
  places.forEach((at, i) => {
    const before = places[i - 1];
    if (before === undefined || at > before || at > lengthM + sameM) return;
    const found = `a post at ${say(at)} after one at ${say(before)}`;
    report.error('not-rising', [...path, 'posts', i], found, 'places in rising order');
  });
  const beyond = places.findIndex((at) => at > lengthM + sameM);
  if (beyond < 0) return;
  const expected = `a place on the run, which is ${say(lengthM)} long`;
  report.error('out-of-range', [...path, 'posts', beyond], `a post at ${say(places[beyond]!)}`, expected);
}
