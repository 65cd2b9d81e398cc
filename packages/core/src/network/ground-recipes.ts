import { type RodLayout, rodArray } from '@postvolt/tables';
import { one, per, type RecipeMaker } from './recipe-maker.js';

/** The energizer's ground rods, or the measured resistance, following the soil where its state was given. */
export function groundSystem(maker: RecipeMaker): number {
  const { energizer, soil } = maker.plan;
  const { ground } = energizer;
  if (ground.kind === 'rods') return rods(maker, ground, soil);
  const ohms = maker.parameter('ground system', 'ground', 'measured ground system', ground.ohms, ground.ohms.source);
  const powers = [one(ohms)];
  if (ground.measuredIn !== null && ground.measuredIn !== maker.condition.soil) {
    powers.push(one(maker.soil(soil, 'deep')), per(maker.soil(soil, 'deep', ground.measuredIn)));
  }
  return maker.series([{ factor: 1, powers }]);
}

/** One rod of a grounded strand. */
export const strandRod = (maker: RecipeMaker, lengthM: number, diameterM: number, soil: string): number =>
  rods(maker, { count: 1, lengthM, diameterM, spacingM: lengthM, layout: 'line' }, soil);

/** Rods after H. B. Dwight 1936, sharing the deep soil. */
function rods(maker: RecipeMaker, { count, lengthM, diameterM, spacingM, layout }: RodLayout, soil: string): number {
  return maker.once(['rods', count, lengthM, diameterM, spacingM, layout, soil], () => {
    const { ohmsPerOhmM } = rodArray({ count, lengthM, diameterM, spacingM, layout });
    return maker.series([{ factor: ohmsPerOhmM, powers: [one(maker.soil(soil, 'deep'))] }]);
  });
}
