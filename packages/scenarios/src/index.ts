import demoFarm from './plans/demo-farm.yaml';
import laneOfGates from './plans/lane-of-gates.yaml';
import loopWithSwitch from './plans/loop-with-switch.yaml';
import mixedAges from './plans/mixed-ages.yaml';
import oneWireDairy from './plans/one-wire-dairy.yaml';
import pigsInTheWood from './plans/pigs-in-the-wood.yaml';
import saltCoast from './plans/salt-coast.yaml';
import sheepOnSand from './plans/sheep-on-sand.yaml';
import snowedInPasture from './plans/snowed-in-pasture.yaml';
import stripGrazing from './plans/strip-grazing.yaml';

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
  {
    id: 'one wire dairy',
    title: 'Larkmead, one wire',
    teaches:
      'Cows that were trained to it respect a single wire. Its length is read off the map, it hangs on ' +
      'fibreglass rods that leak next to nothing, and even a stretch of nettles in June leaves volts to spare: ' +
      'a short clean fence needs little. A cold battery in winter takes a tenth of it.',
    plan: oneWireDairy,
  },
  {
    id: 'sheep on sand',
    title: 'Tern Links, sheep on sand',
    teaches:
      'Volts on the wire are not volts across the animal. On dry sand the feet of a woolly sheep keep nearly ' +
      'all of them, and a fence of hot wires alone falls short in a dry spell. Grounded wires between the hot ' +
      'ones give the current a way back, and hold the same sheep in the same weather.',
    plan: sheepOnSand,
  },
  {
    id: 'salt coast',
    title: 'Gannet Head, salt coast',
    teaches:
      'Salt spray lies on every insulator. Dry, it does little; in mist it leaks, and in rain the old glazed ' +
      'ceramic knobs with crazed glaze leak most, with the wooden posts behind them. Coated wire, porcelain ' +
      'ends and good pins stand the coast.',
    plan: saltCoast,
  },
  {
    id: 'strip grazing',
    title: 'Dockery Bottom, moved strip',
    teaches:
      'Poly twine carries volts only a short way: it has hundreds of times the resistance of steel wire. A ' +
      'battery energizer with one short rod is enough for a strip of grass, as long as the grass is short. Its ' +
      'output is entered from its papers, and one row of the tables is the farm’s own.',
    plan: stripGrazing,
  },
  {
    id: 'loop with a switch',
    title: 'Cinder Mesa, loop with a switch',
    teaches:
      'A closed loop feeds every post from both sides, so the far end reads higher than on a line. The price: a ' +
      'fault is felt everywhere. Cut-out switches open the loop to look for it; what lies behind an open switch ' +
      'is listed and left out of the verdict.',
    plan: loopWithSwitch,
  },
  {
    id: 'lane of gates',
    title: 'Ninegates, a lane of gates',
    teaches:
      'Every gate is a cable underground with two joints. Good insulated cable costs hardly any volts; building ' +
      'cable is not made for them, and the plan says so. A gate that does not carry the grounded strand leaves ' +
      'it needing rods of its own on the far side.',
    plan: laneOfGates,
  },
  {
    id: 'mixed ages',
    title: 'Threadbare Acres, mixed ages',
    teaches:
      'Thirty years of patching in one fence: new claws beside aged cheap ones, wood, steel and fibreglass, and ' +
      'one of nearly every fault. The ticking insulator on a steel post costs more than all the rest of a dry ' +
      'week, and a storm adds five faults at once. The question is what to mend first.',
    plan: mixedAges,
  },
  {
    id: 'snowed-in pasture',
    title: 'Rimefold, snowed-in pasture',
    teaches:
      'Rock under thin soil and half a year of snow. Frozen ground is next to no ground: under dry snow the ' +
      'wire keeps its volts and an animal gets almost none of them, unless grounded wires stand between the hot ' +
      'ones. A ring of short rods is what the rock allows.',
    plan: snowedInPasture,
  },
  {
    id: 'pigs in the wood',
    title: 'Mastwood, pigs under oaks',
    teaches:
      'Two short low wires that pigs bury in leaves. There is hardly any fence, and yet the growth and the soil ' +
      'on the low wire take what a small solar energizer has to give in November.',
    plan: pigsInTheWood,
  },
];

/** The scenario of this id. Throws a RangeError that lists the ids where there is none. */
export function scenario(id: string): Scenario {
  const found = scenarios.find((known) => known.id === id);
  if (found) return found;
  const ids = scenarios.map((known) => JSON.stringify(known.id)).join(', ');
  throw new RangeError(`scenario: found ${JSON.stringify(id)}, expected one of ${ids}`);
}
