import type { Estimate } from '@postvolt/tables';
import type { Term } from './parameters.js';
import { one, type RecipeMaker } from './recipe-maker.js';

/** The plan's animal standing on the soil there, in contact with a strand. */
export function animalToEarth(maker: RecipeMaker, soil: string): number {
  return maker.once(['animal', soil], () => {
    const row = maker.plan.rows.animals[maker.plan.animal]!;
    const cover = maker.plan.rows.groundCovers[maker.condition.groundCover]!;
    const feet = part(maker, 'feet', row.feetOhmsPerOhmM);
    const under = maker.parameter(
      'animal',
      `cover|${cover.id}`,
      `${cover.id} under the feet`,
      cover.hoofOhms,
      `groundCovers: ${cover.id}`,
    );
    return maker.series([
      ...bodyAndHide(maker),
      { factor: 1, powers: [one(feet), one(maker.soil(soil, 'topsoil'))] },
      { factor: 1, powers: [one(under)] },
    ]);
  });
}

/** The plan's animal between a hot and a grounded strand. */
export const animalBetweenStrands = (maker: RecipeMaker): number =>
  maker.once(['animal between'], () => maker.series(bodyAndHide(maker)));

function bodyAndHide(maker: RecipeMaker): Term[] {
  const row = maker.plan.rows.animals[maker.plan.animal]!;
  return [
    { factor: 1, powers: [one(part(maker, 'body', row.bodyOhms))] },
    { factor: 1, powers: [one(part(maker, 'hide', row.hideOhms))] },
  ];
}

function part(maker: RecipeMaker, name: string, estimate: Estimate): number {
  const { animal } = maker.plan;
  return maker.parameter('animal', `animal|${animal}|${name}`, `${animal}, ${name}`, estimate, `animals: ${animal}`);
}
