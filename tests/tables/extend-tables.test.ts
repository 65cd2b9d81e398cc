import {
  type Extended,
  estimate,
  extendTables,
  findRow,
  standardTables,
  type TableSet,
  type WireRow,
} from '@postvolt/tables';
import { describe, expect, expectTypeOf, it } from 'vitest';

const wire = findRow(standardTables, 'wires', '12.5 ga high-tensile')!;
const measured: WireRow = {
  ...structuredClone(wire),
  id: 'my old wire',
  aliases: ['barn wire'],
  ohmsPerMetre: estimate(0.09, [0.08, 0.1], 'Ω/m', 'measured on the farm'),
};

const tablesOf = (extended: Extended) => {
  if (!extended.ok) throw new Error(JSON.stringify(extended.issues));
  return extended.tables;
};
const issuesOf = (extra: unknown) => {
  const extended = extendTables(standardTables, extra);
  return extended.ok ? [] : extended.issues;
};

describe('extendTables', () => {
  it('adds a row and leaves the rest', () => {
    const tables = tablesOf(extendTables(standardTables, { wires: [measured] }));
    expect(findRow(tables, 'wires', 'Barn Wire')).toEqual(measured);
    expect(tables.wires.slice(0, -1)).toEqual(standardTables.wires);
    expect(tables.soils).toEqual(standardTables.soils);
    expect(findRow(standardTables, 'wires', 'barn wire')).toBeUndefined();
  });

  it('puts a row of the same id in its place', () => {
    const better = { ...structuredClone(wire), about: 'As measured.' };
    const tables = tablesOf(extendTables(standardTables, { wires: [better] }));
    expect(tables.wires).toHaveLength(standardTables.wires.length);
    expect(tables.wires.findIndex((row) => row.id === wire.id)).toBe(
      standardTables.wires.findIndex((row) => row.id === wire.id),
    );
    expect(findRow(tables, 'wires', '12½ ga')?.about).toBe('As measured.');
  });

  it('may be done again on its own result, and with nothing', () => {
    const once = tablesOf(extendTables(standardTables, { wires: [measured] }));
    const twice = tablesOf(extendTables(once, { wires: [{ ...measured, about: 'Again.' }] }));
    expect(twice.wires).toHaveLength(once.wires.length);
    expect(tablesOf(extendTables(standardTables, {}))).toEqual(standardTables);
  });

  it('replaces the wetness of growth as a whole', () => {
    const growthWetness = structuredClone(standardTables.growthWetness);
    growthWetness.damp = estimate(0.5, [0.3, 0.7], '1', 'measured on the farm');
    expect(tablesOf(extendTables(standardTables, { growthWetness })).growthWetness.damp.typical).toBe(0.5);
  });

  it('leaves what it was given free to change, and its own lists not', () => {
    const given = structuredClone(measured);
    const tables = tablesOf(extendTables(structuredClone(standardTables), { wires: [given] }));
    given.aliases.push('shed wire');
    expect(findRow(tables, 'wires', 'shed wire')).toBeUndefined();
    expect(() => tables.wires.pop()).toThrow(TypeError);
  });

  it('takes the whole of the standard set back', () => {
    expect(tablesOf(extendTables(standardTables, structuredClone(standardTables)))).toEqual(standardTables);
  });

  it('tells every fault of shape at once, with its place', () => {
    const bad = structuredClone(measured) as unknown as Record<string, unknown>;
    bad['kind'] = 'string';
    bad['colour'] = 'green';
    bad['serviceYears'] = { ...measured.serviceYears, low: 99 };
    (bad['diameterM'] as { typical: unknown }).typical = '0.099 in';
    const issues = issuesOf({ wires: [measured, bad] });
    expect(issues).toContainEqual({
      code: 'shape',
      path: ['wires', 1, 'diameterM', 'typical'],
      found: '"0.099 in"',
      expected: 'number',
    });
    expect(issues).toContainEqual({
      code: 'shape',
      path: ['wires', 1, 'kind'],
      found: '"string"',
      expected: '"steel" or "aluminium" or "poly" or "cable"',
    });
    expect(issues).toContainEqual({
      code: 'shape',
      path: ['wires', 1, 'colour'],
      found: '"colour"',
      expected: 'a known field',
    });
    expect(issues).toContainEqual(
      expect.objectContaining({ path: ['wires', 1, 'serviceYears'], expected: 'low <= typical <= high' }),
    );
  });

  it.each([
    ['NaN', Number.NaN],
    ['infinity', Number.POSITIVE_INFINITY],
  ])('refuses %s', (found, value) => {
    const bad = structuredClone(measured);
    bad.ohmsPerMetre = { ...measured.ohmsPerMetre!, high: value };
    expect(issuesOf({ wires: [bad] })[0]).toMatchObject({
      code: 'shape',
      path: ['wires', 0, 'ohmsPerMetre', 'high'],
      found: found === 'NaN' ? 'NaN' : 'Infinity',
    });
  });

  it.each([[null], ['wires'], [7], [[]], [{ wires: {} }], [{ wires: null }], [{ fences: [] }]])(
    'refuses %j',
    (extra) => {
      expect(issuesOf(extra).length).toBeGreaterThan(0);
    },
  );

  it('refuses keys that reach for a prototype', () => {
    for (const text of [
      '{"__proto__": {"wires": []}}',
      '{"constructor": {"wires": []}}',
      '{"wires": [{"__proto__": {}}]}',
    ]) {
      expect(issuesOf(JSON.parse(text)).length, text).toBeGreaterThan(0);
    }
    const row = JSON.parse(JSON.stringify(measured).replace('{', '{"__proto__": {"colour": "green"},'));
    expect(issuesOf({ wires: [row] })).toEqual([
      { code: 'shape', path: ['wires', 0, '__proto__'], found: '"__proto__"', expected: 'a known field' },
    ]);
    expect(({} as { colour?: unknown }).colour).toBeUndefined();
  });

  it('refuses another unit, by name', () => {
    const mm = structuredClone(measured);
    mm.diameterM = estimate(2.5, null, 'mm', 'measured on the farm');
    mm.ohmsPerMetre = null;
    expect(issuesOf({ wires: [mm] })).toContainEqual({
      code: 'unit',
      path: ['wires', 0, 'diameterM', 'unit'],
      found: 'mm',
      expected: 'm',
    });
  });

  it('refuses numbers below what can be', () => {
    const joint = {
      id: 'my joint',
      aliases: [],
      about: 'A joint.',
      ohms: estimate(0, [-1, 1], 'Ω', 'measured on the farm'),
    };
    expect(issuesOf({ joints: [joint] })).toEqual([
      { code: 'range', path: ['joints', 0, 'ohms', 'low'], found: '-1', expected: 'a number at least 0' },
    ]);
  });

  it('refuses a wire that says neither ohms nor size, or is all coating', () => {
    const empty = { ...structuredClone(measured), ohmsPerMetre: null, diameterM: null };
    expect(issuesOf({ wires: [empty] })).toMatchObject([{ code: 'incomplete', path: ['wires', 0] }]);
    const zinc = structuredClone(wire);
    zinc.coating!.thicknessM = estimate(0.002, null, 'm', 'measured on the farm');
    expect(issuesOf({ wires: [zinc] })).toMatchObject([{ code: 'range', path: ['wires', 0, 'coating', 'thicknessM'] }]);
  });

  it('refuses an energizer whose points do not fall', () => {
    const row = structuredClone(standardTables.energizers.find((energizer) => energizer.id === '6 j')!);
    const volts = (V: number) => estimate(V, null, 'V', 'label');
    row.loads = [
      { ohms: null, volts: volts(9000) },
      { ohms: 500, volts: volts(9100) },
    ];
    expect(issuesOf({ energizers: [row] })).toMatchObject([
      { code: 'not-falling', path: ['energizers', 0, 'loads', 1, 'volts', 'low'], found: '9100 V' },
    ]);
    row.loads = [
      { ohms: 500, volts: volts(8000) },
      { ohms: 100, volts: volts(1500) },
    ];
    expect(issuesOf({ energizers: [row] })).toMatchObject([
      { code: 'not-falling', expected: 'less than 8000 V, and more than 1600 V' },
    ]);
    row.loads = [
      { ohms: null, volts: volts(9000) },
      { ohms: 100, volts: volts(5000) },
      { ohms: 500, volts: volts(4000) },
    ];
    expect(issuesOf({ energizers: [row] })).toMatchObject([
      { code: 'not-falling', path: ['energizers', 0, 'loads', 2, 'ohms'] },
    ]);
  });

  it('refuses a name that another row has, and an id twice', () => {
    expect(issuesOf({ wires: [{ ...measured, aliases: ['12.5 gauge'] }] })).toEqual([
      {
        code: 'repeated',
        path: ['wires', 0, 'aliases', 0],
        found: '12.5 gauge',
        expected: 'a name that "12.5 ga high-tensile" does not have',
      },
    ]);
    expect(issuesOf({ wires: [measured, measured] })).toEqual([
      { code: 'repeated', path: ['wires', 1, 'id'], found: 'my old wire', expected: 'each id once' },
    ]);
  });

  it('refuses an insulator for a post that is not there, and takes both together', () => {
    const claw = {
      ...structuredClone(findRow(standardTables, 'insulators', 'claw')!),
      id: 'my claw',
      aliases: [],
      posts: ['stone'],
    };
    expect(issuesOf({ insulators: [claw] })).toMatchObject([
      { code: 'unknown-post', path: ['insulators', 0, 'posts', 0], found: 'stone' },
    ]);
    const stone = { ...structuredClone(findRow(standardTables, 'posts', 'wood')!), id: 'stone', aliases: [] };
    expect(issuesOf({ insulators: [claw], posts: [stone] })).toEqual([]);
  });

  it('refuses an insulator without a path that is not metal', () => {
    const claw = {
      ...structuredClone(findRow(standardTables, 'insulators', 'claw')!),
      formFactor: estimate(0, null, '1', 'none at all'),
    };
    expect(issuesOf({ insulators: [claw] })).toMatchObject([
      { code: 'range', path: ['insulators', 0, 'formFactor', 'low'] },
    ]);
  });
});

describe('findRow', () => {
  it('sees a change in lists that may change, and lets an id win over an alias', () => {
    const tables = structuredClone(standardTables);
    expect(findRow(tables, 'wires', 'barn wire')).toBeUndefined();
    tables.wires.push(measured);
    expect(findRow(tables, 'wires', 'barn wire')).toBe(measured);
    tables.wires.unshift({ ...measured, id: 'first', aliases: ['12.5 ga high-tensile'] });
    expect(findRow(tables, 'wires', '12.5 ga high-tensile')?.id).toBe('12.5 ga high-tensile');
  });

  it('finds by id, alias and spelling, and nothing else', () => {
    for (const name of ['12.5 ga high-tensile', '12.5 GA High-Tensile', '12½ ga', '12-1/2 gauge', '12.5ga']) {
      expect(findRow(standardTables, 'wires', name)?.id).toBe('12.5 ga high-tensile');
    }
    expect(findRow(standardTables, 'soils', 'sandy')?.id).toBe('sand');
    for (const name of ['', '12.5', '__proto__', 'constructor', 'sand'])
      expect(findRow(standardTables, 'wires', name)).toBeUndefined();
  });

  it('a bare gauge is steel, high-tensile where that is sold; copper gauge says so', () => {
    expect(findRow(standardTables, 'wires', '12.5 ga')?.kind).toBe('steel');
    expect(findRow(standardTables, 'wires', '12 ga')?.id).toBe('12 ga mild steel');
    expect(findRow(standardTables, 'wires', '12 AWG')?.id).toBe('12 awg copper cable');
  });

  it('knows the type of the row by the table', () => {
    expectTypeOf(findRow(standardTables, 'wires', 'x')).toEqualTypeOf<TableSet['wires'][number] | undefined>();
    expectTypeOf(findRow(standardTables, 'films', 'x')?.siemens).not.toBeAny();
  });
});
