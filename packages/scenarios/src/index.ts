import demoFarm from './plans/demo-farm.yaml';

/** An invented farm with a plan to start from. */
export interface Scenario {
  /** What `scenario()` and the command line call it. */
  readonly id: string;
  readonly title: string;
  /** What it teaches, in a paragraph. */
  readonly teaches: string;
  /** The plan as a person would write it: YAML with its comments. */
  readonly plan: string;
}

/** All scenarios; every farm, place and number in them is invented. */
export const scenarios: readonly Scenario[] = [
  {
    id: 'demo farm',
    title: 'Pennywhistle Flats',
    teaches:
      'A six-mile cattle perimeter with four cross-fences, fed from one corner by the joule a mile and the three feet of ' +
      'rod a joule that the farm press advises. It holds through summer, winter and spring, and falls short in a wet ' +
      'autumn. The weeds get the blame, but the largest leak is a mile of old cheap insulators on steel posts: new ones ' +
      'hold the target with the weeds as they are, and so does a mown ditch with the insulators as they are.',
    plan: demoFarm,
  },
];

/** The scenario of this id. Throws a RangeError that lists the ids where there is none. */
export function scenario(id: string): Scenario {
  const found = scenarios.find((known) => known.id === id);
  if (found) return found;
  const ids = scenarios.map((known) => JSON.stringify(known.id)).join(', ');
  throw new RangeError(`scenario: found ${JSON.stringify(id)}, expected one of ${ids}`);
}
