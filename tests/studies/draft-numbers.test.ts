import { runsFromGeoJson } from '@postvolt/core';
import { type DraftAnswers, draftPlan, patternFor, rodsFor } from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import { findRow, patterns, standardTables } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';

const foot = 0.3048;
const inch = 0.0254;
const answers: DraftAnswers = { animal: 'cattle', soil: 'loam', energizer: '6 J', use: 'permanent', lengthM: 1000 };
const drafted = (changes: Partial<DraftAnswers> = {}) => {
  const { text, ...rest } = draftPlan({ ...answers, ...changes });
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues, null, 1));
  return { text, plan: outcome.value, ...rest };
};
const metres = (wanted: number) => expect.closeTo(wanted, 6);

describe('what a drafted plan is made of', () => {
  // Posts stand 12 m apart, 9 m where there are more than three strands, 8 m where it is moved.
  // Written to the foot, the centimetre, or the tenth of a metre from three metres on.
  test.each<[animal: string, use: DraftAnswers['use'], units: 'imperial' | 'metric', spacingM: number]>([
    ['cattle', 'permanent', 'metric', 12],
    ['cattle', 'permanent', 'imperial', 39 * foot],
    ['bulls', 'permanent', 'metric', 12],
    ['sheep', 'permanent', 'metric', 9],
    ['sheep', 'permanent', 'imperial', 30 * foot],
    ['cattle', 'temporary', 'metric', 8],
    ['cattle', 'temporary', 'imperial', 26 * foot],
  ])('posts for %s, %s, %s', (animal, use, units, spacingM) => {
    const { plan } = drafted({ animal, use, units });
    expect(plan.runs).toHaveLength(1);
    expect(plan.runs[0]!.posts).toEqual({ kind: 'equal', spacingM: metres(spacingM) });
    expect(plan.builds[0]!.post).toBe(use === 'permanent' ? 'wood' : 'step-in');
    expect(plan.units).toBe(units);
  });

  test.each<[animal: string, use: DraftAnswers['use'], units: 'imperial' | 'metric', wire: string]>([
    ['cattle', 'permanent', 'imperial', '12.5 ga high-tensile'],
    ['horses', 'permanent', 'imperial', '12.5 ga high-tensile'],
    ['cattle', 'permanent', 'metric', '2.5 mm high-tensile'],
    ['calves', 'temporary', 'imperial', 'poly twine'],
    // One pattern serves cattle and horses, and horses have to see it.
    ['cattle', 'temporary', 'imperial', 'poly tape 12 mm'],
    ['horses', 'temporary', 'metric', 'poly tape 12 mm'],
  ])('wire for %s, %s, %s', (animal, use, units, wire) => {
    const { plan } = drafted({ animal, use, units });
    const id = findRow(standardTables, 'wires', wire)!.id;
    expect(new Set(plan.builds[0]!.strands.map((strand) => strand.wire))).toEqual(new Set([id]));
  });

  test('insulators of a lasting fence are named: claws, and porcelain at the ends', () => {
    const { strands } = drafted({ animal: 'sheep' }).plan.builds[0]!;
    for (const { role, insulator, endInsulator } of strands) {
      if (role === 'grounded') continue;
      expect([insulator, endInsulator]).toEqual(['nail-on claw', 'porcelain bullnose']);
    }
    // Sheep: 38, 27, 19, 12 and 6 in from the top, the fourth and second from the ground grounded.
    expect(strands.map(({ id, heightM, role }) => [id, Math.round(heightM / inch), role])).toEqual([
      ['s5', 38, 'hot'],
      ['s4', 27, 'grounded'],
      ['s3', 19, 'hot'],
      ['s2', 12, 'grounded'],
      ['s1', 6, 'hot'],
    ]);
  });

  test.each([
    ['permanent', 'imperial', 49 * foot],
    ['permanent', 'metric', 15],
  ] as const)('a lead-out for a %s fence, %s', (use, units, lengthM) => {
    expect(drafted({ use, units }).plan.energizer.leadOut!.lengthM).toBeCloseTo(lengthM, 9);
  });

  test('a fence that is moved hangs on its energizer, with one short rod', () => {
    const { plan } = drafted({ use: 'temporary', units: 'metric', energizer: '12 J' });
    expect(plan.energizer.leadOut).toBeNull();
    // 3 ft are 91 cm.
    expect(plan.energizer.ground).toMatchObject({ kind: 'rods', count: 1, lengthM: metres(0.91) });
  });

  test.each([
    ['metric', 1.83, 3],
    ['imperial', 6 * foot, 10 * foot],
  ] as const)('rods of 6 ft, 10 ft apart, %s', (units, lengthM, spacingM) => {
    // 18 J at 3 ft a joule are 54 ft: nine rods. 10 ft are 3.048 m.
    expect(drafted({ units, energizer: '18 J' }).plan.energizer.ground).toMatchObject({
      ...{ count: 9, lengthM: metres(lengthM), spacingM: metres(spacingM) },
    });
  });

  test('seasons to be sure of: summer and spring, and winter where the fence stays', () => {
    const { conditions } = drafted().plan;
    const seasons = conditions.map((c) => [c.name, c.soil, c.film, c.growth.vegetation, c.groundCover, c.temperatureC]);
    const usual = [
      ['dry summer', 'dry', 'dry', 'light'],
      ['wet spring', 'wet', 'wet', 'moderate'],
    ];
    expect(seasons.slice(0, 2).map((season) => season.slice(0, 4))).toEqual(usual);
    expect(seasons[2]).toEqual(['hard winter', 'frozen', 'dry', 'trace', 'wet snow', -5]);
    expect(drafted({ use: 'temporary' }).plan.conditions.map(({ name }) => name)).toEqual(['dry summer', 'wet spring']);
  });

  test('the answers stand in it', () => {
    const { plan, text } = drafted({ animal: 'bulls', soil: 'clay', energizer: 'small solar', use: 'temporary' });
    expect(plan).toMatchObject({
      animal: 'bulls',
      soil: 'clay',
      title: 'Temporary fence for bulls',
      units: 'imperial',
    });
    expect(plan.energizer).toMatchObject({ row: 'small solar', junction: 'home' });
    expect(plan.target.label).toContain('bulls');
    expect(text).toMatch(/^# Drafted by Postvolt from a few answers: temporary fence for bulls on clay\./);
    expect(drafted({ title: 'Mine' }).plan.title).toBe('Mine');
    expect(drafted().plan.runs[0]).toMatchObject({ from: 'home', to: 'far end', lengthM: expect.closeTo(1000, 1) });
  });
});

describe('what is said of published specifications', () => {
  test('both are given, with strands and heights as the patterns have them', () => {
    const { text, notes } = drafted({ animal: 'sheep', units: 'metric' });
    // 6, 12, 19, 27 and 38 in; and 6, 11, 17, 24, 32 and 42 in; to the centimetre.
    const practice = '5 strands at 15 cm, 30 cm (grounded), 48 cm, 69 cm (grounded), 97 cm';
    const published = '6 strands at 15 cm, 28 cm (grounded), 43 cm, 61 cm (grounded), 81 cm, 107 cm';
    expect(notes[0]).toContain(`Strands as graziers build it, ${practice} (common practice`);
    expect(notes[1]).toContain(`Published specifications ask for ${published} (`);
    expect(text).toContain(`# Published specifications ask for ${published}: `);
    expect(notes).toHaveLength(3);
  });

  test('one strand is one', () => {
    const { notes, text } = drafted({ animal: 'trained dairy cows' });
    expect(notes[0]).toContain('Strands as graziers build it, one strand at 33 in (');
    // Nothing is published for them.
    expect(text).not.toContain('Published');
    expect(notes).toHaveLength(2);
    expect(notes[1]).toMatch(/^Ground rods: 3 ft of rod a joule, three rods at the least; .*; ask `supply`/);
  });

  test('the note on rods is that of the use', () => {
    expect(drafted({ use: 'temporary' }).notes.at(-1)).toMatch(/^Ground rods: one short rod, as moved fence has/);
  });

  test('what is taller than a person is written in feet', () => {
    // 68 in is still in inches; posts 30 ft apart are not.
    expect(drafted({ animal: 'deer' }).notes[1]).toContain('58 in (grounded), 68 in (');
    expect(drafted({ animal: 'deer' }).text).toContain('postSpacing: 30 ft');
    expect(drafted({ animal: 'deer', units: 'metric' }).text).toContain('postSpacing: 9 m');
    expect(drafted({ units: 'metric' }).text).toContain('spacing: 3 m }');
    expect(drafted({ units: 'metric' }).text).toContain('length: 183 cm');
  });
});

describe('rods by the rule of thumb', () => {
  // 3 ft a joule in rods of 6 ft: a rod for every 2 J, three at the least.
  test.each([
    [0.1, 3],
    [6, 3],
    [6.1, 4],
    [8, 4],
    [8.01, 5],
    [12, 6],
    [100, 50],
  ])('%d J', (joules, count) => {
    expect(rodsFor(joules, 'permanent')).toMatchObject({
      ...{ count, lengthM: metres(6 * foot), spacingM: metres(10 * foot) },
    });
    expect(rodsFor(joules, 'temporary')).toMatchObject({
      ...{ count: 1, lengthM: metres(3 * foot), spacingM: metres(3 * foot) },
    });
  });
});

describe('which pattern', () => {
  test('one for the animal and the use', () => {
    for (const use of ['permanent', 'temporary'] as const)
      for (const { id } of standardTables.animals) {
        const own = patterns.filter((pattern) => pattern.use === use && pattern.animals.includes(id));
        expect(patternFor(id, use)).toBe(own[0]);
      }
  });

  test('that for cattle where an animal has none of its own', () => {
    for (const use of ['permanent', 'temporary'] as const) {
      expect(patternFor('llama', use)).toMatchObject({ use });
      expect(patternFor('llama', use).animals).toContain('cattle');
    }
  });
});

describe('the length', () => {
  test.each([0.01, 1, 1e6])('%d m is one', (lengthM) => {
    expect(() => draftPlan({ ...answers, lengthM })).not.toThrow();
  });
  test.each([0, -1, 1_000_001, Number.POSITIVE_INFINITY])('%d m is none', (lengthM) => {
    expect(() => draftPlan({ ...answers, lengthM })).toThrow(/length: found .* m, expected a length above 0 m/);
  });
  test('is written without commas', () => {
    expect(drafted({ lengthM: 9999, units: 'metric' }).plan.runs[0]!.lengthM).toBeCloseTo(9999, 6);
    expect(drafted({ lengthM: 1_000_000, units: 'metric' }).plan.runs[0]!.lengthM).toBeCloseTo(1e6, 6);
  });
});

test('a fence from a map has its junctions, places and own fields, and the energizer at the first', () => {
  const map = {
    type: 'FeatureCollection',
    features: [
      {
        type: 'Feature',
        properties: { name: 'north: side', from: 'yard', to: 'oak', postSpacing: '7 m' },
        geometry: {
          type: 'LineString',
          coordinates: [
            [10, 50],
            [10.005, 50.001],
            [10.01, 50],
          ],
        },
      },
    ],
  };
  const drawn = runsFromGeoJson(map);
  if (!drawn.ok) throw new Error(JSON.stringify(drawn.issues));
  const { plan } = drafted({ geoJson: map });
  expect(plan.junctions.map(({ id, at }) => [id, at])).toEqual([
    ['yard', [10, 50]],
    ['oak', [10.01, 50]],
  ]);
  expect(plan.energizer.junction).toBe('yard');
  expect(plan.runs).toMatchObject([
    {
      id: 'north: side',
      from: 'yard',
      to: 'oak',
      line: map.features[0]!.geometry.coordinates,
      posts: { kind: 'equal', spacingM: 7 },
      build: 'fence',
    },
  ]);
  expect(() => draftPlan({ ...answers, geoJson: { type: 'Polygon' } })).toThrow(/GeoJSON|LineString/i);
});
