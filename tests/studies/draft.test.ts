import { formatLength, type PlanError, runsFromGeoJson, solvePlan } from '@postvolt/core';
import { draftPlan, patternFor, rodsFor } from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import { patternRowSchema, patterns, standardTables } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';

const read = (text: string) => {
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues, null, 1));
  return outcome;
};
const answers = { animal: 'cattle', soil: 'loam', energizer: '6 J', use: 'permanent', lengthM: 3218.688 } as const;

describe('the table of fence patterns', () => {
  test('is well formed, from the ground up, and has both uses for every animal of the animals table', () => {
    for (const pattern of patterns) {
      expect(() => patternRowSchema.parse(pattern)).not.toThrow();
      for (const spec of [pattern.practice, pattern.published]) {
        const heights = spec?.strands.map((strand) => strand.heightM) ?? [];
        expect(heights).toEqual([...heights].sort((a, b) => a - b));
      }
      const known = standardTables.animals.map((row) => row.id);
      expect(pattern.animals.filter((animal) => !known.includes(animal))).toEqual([]);
    }
    for (const { id } of standardTables.animals) {
      for (const use of ['permanent', 'temporary'] as const) expect(patternFor(id, use).animals).toContain(id);
    }
  });

  test('says of published specifications that they are from memory', () => {
    for (const { published } of patterns) if (published !== null) expect(published.fromMemory).toBe(true);
  });
});

describe('a drafted plan', () => {
  const cases = standardTables.animals.flatMap(({ id }) =>
    (['permanent', 'temporary'] as const).flatMap((use) =>
      (['imperial', 'metric'] as const).map((units) => [id, use, units] as const),
    ),
  );
  test.each(cases)('for %s, %s, %s, reads without errors, carries comments and is solved', (animal, use, units) => {
    for (const energizer of ['small solar', '12 j']) {
      const { text, pattern } = draftPlan({ animal, use, units, energizer, soil: 'clay', lengthM: 800 });
      const { value: plan, issues } = read(text);
      expect(issues.filter((issue) => issue.severity === 'error')).toEqual([]);
      expect(plan.builds[0]!.strands.map((s) => s.role).reverse()).toEqual(pattern.practice.strands.map((s) => s.role));
      plan.builds[0]!.strands.forEach((strand, i) => {
        // Heights are written to the inch or the centimetre.
        expect(Math.abs(strand.heightM - pattern.practice.strands.at(-1 - i)!.heightM)).toBeLessThan(0.0128);
      });
      expect(text.split('\n').filter((line) => line.includes('#')).length).toBeGreaterThan(4);
      expect(solvePlan(plan).conditions).toHaveLength(use === 'permanent' ? 3 : 2);
    }
  });

  test('keeps the length, in either unit', () => {
    for (const units of ['imperial', 'metric'] as const) {
      for (const lengthM of [37, 1234.5, 9999.9, 16093.44]) {
        const [run] = read(draftPlan({ ...answers, units, lengthM }).text).value.runs;
        // Six digits are written.
        expect(Math.abs(run!.lengthM / lengthM - 1)).toBeLessThan(1e-5);
        expect(formatLength(run!.lengthM, units)).toBe(formatLength(lengthM, units));
      }
    }
  });

  test('has rods by the rule of thumb: 3 ft a joule, three at the least (common practice, no source)', () => {
    expect([0.5, 1, 6, 12, 18, 25].map((joules) => rodsFor(joules, 'permanent').count)).toEqual([3, 3, 3, 6, 9, 13]);
    expect(read(draftPlan({ ...answers, energizer: '18 J' }).text).value.energizer.ground).toMatchObject({
      kind: 'rods',
      count: 9,
    });
  });

  test('says both where practice and published specifications differ', () => {
    const { text, notes } = draftPlan(answers);
    expect(text).toContain('Published specifications ask for 3 strands at 14 in, 26 in, 38 in');
    expect(notes.join(' ')).toMatch(/as graziers build it, 2 strands at 20 in, 34 in/);
  });

  test('keeps a hostile title as text', () => {
    const title = 'a: "b" # [c]\n- &d *e';
    expect(read(draftPlan({ ...answers, title }).text).value.title).toBe(title);
  });

  test('refuses unknown names with the nearest, and a length that is missing or absurd', () => {
    const issue = (changes: object) => {
      try {
        draftPlan({ ...answers, ...changes });
      } catch (error) {
        return (error as PlanError).issues[0]!;
      }
      throw new Error('was not refused');
    };
    expect(issue({ animal: 'cattel' })).toMatchObject({ path: ['animal'], hint: expect.stringContaining('cattle') });
    expect(issue({ soil: 'lom' })).toMatchObject({ path: ['soil'], hint: expect.stringContaining('loam') });
    expect(issue({ energizer: '7 J' }).path).toEqual(['energizer']);
    expect(issue({ lengthM: undefined }).path).toEqual(['length']);
    expect(issue({ lengthM: Number.NaN }).path).toEqual(['length']);
  });
});

describe('runs from a map', () => {
  const line = (coordinates: unknown, properties: object | null = null) => ({
    type: 'Feature',
    properties,
    geometry: { type: 'LineString', coordinates },
  });
  const map = {
    type: 'FeatureCollection',
    features: [
      line(
        [
          [10, 50],
          [10.01, 50],
        ],
        { name: 'south', from: 'yard', to: 'oak', postSpacing: '10 m' },
      ),
      line(
        [
          [10.01, 50.000001],
          [10.01, 50.01],
          [10.012, 50.012],
        ],
        { name: 'east' },
      ),
      line(
        [
          [10.01, 50],
          [10.02, 50],
        ],
        { name: 'south' },
      ),
      { type: 'Feature', properties: {}, geometry: { type: 'Point', coordinates: [10, 50] } },
    ],
  };

  test('each line a run, ends within a metre of each other one junction, names kept unique', () => {
    const drawn = runsFromGeoJson(map);
    if (!drawn.ok) throw new Error(JSON.stringify(drawn.issues));
    expect(Object.keys(drawn.value.runs)).toEqual(['south', 'east', 'south 2']);
    expect(drawn.value.runs['east']).toMatchObject({ from: 'oak' });
    expect(drawn.value.runs['south 2']).toMatchObject({ from: 'oak' });
    expect(drawn.value.runs['south']).toMatchObject({ from: 'yard', to: 'oak', postSpacing: '10 m' });
  });

  test('make a plan whose lengths are geodesic', () => {
    const { value: plan } = read(draftPlan({ ...answers, geoJson: map }).text);
    // 0.01° of longitude at 50° north on WGS84: π/180 · a cos φ / √(1 − e² sin² φ) · 0.01 = 716.96 m along the parallel,
    // longer than the geodesic by under a millimetre.
    expect(plan.runs[0]!.lengthM).toBeCloseTo(716.96, 1);
    expect(plan.energizer.junction).toBe('yard');
  });

  test('takes a bare line or a feature, and says what is wrong with others', () => {
    expect(
      runsFromGeoJson({
        type: 'LineString',
        coordinates: [
          [1, 2],
          [1.01, 2],
        ],
      }).ok,
    ).toBe(true);
    expect(
      runsFromGeoJson(
        line([
          [1, 2],
          [1.01, 2],
        ]),
      ).ok,
    ).toBe(true);
    for (const bad of [
      null,
      3,
      'x',
      {},
      { type: 'Polygon' },
      { type: 'FeatureCollection', features: [] },
      line([[1, 2]]),
      line([
        [1, 200],
        [1, 2],
      ]),
      line('x'),
    ]) {
      const outcome = runsFromGeoJson(bad);
      expect(outcome.ok).toBe(false);
      expect(outcome.issues[0]).toMatchObject({ code: 'bad-geojson', severity: 'error' });
    }
  });
});
