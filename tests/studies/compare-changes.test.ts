// Changes as a person writes them, and what each leaves of a plan.
import { PlanError, parsePlan } from '@postvolt/core';
import { applyChanges, readChanges } from '@postvolt/core/studies';
import { standardTables } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { planOf } from '../plan/small-plan.js';

const plan = parsePlan(
  planOf((p) => {
    p['stretches'] = [
      { run: 'west', from: '0 ft', to: '300 ft', wire: '14 ga high-tensile', post: 't-post', insulator: 't-post clip' },
      { run: 'north', from: '0 ft', to: '300 ft', wire: '14 ga high-tensile' },
    ];
    p['faults'] = [
      { kind: 'bad splice', run: 'west', span: 2, strand: 'top' },
      { kind: 'bad splice', run: 'north', span: 2, strand: 'top' },
    ];
  }),
);
const changed = (words: string) => applyChanges(plan, readChanges(words), standardTables);
const buildOf = (of: typeof plan, run: string) =>
  of.builds.find(({ id }) => id === of.runs.find((own) => own.id === run)!.build)!;
const setOf = (of: typeof plan, run: string) => of.stretches.find((stretch) => stretch.run === run)!.set;

describe('changes in words', () => {
  test.each([
    ['rods +2', { what: 'rods', more: 2 }],
    ['rods −1', { what: 'rods', more: -1 }],
    ['rods 12', { what: 'rods', count: 12 }],
    ['spray', { what: 'growth', atMost: 'none' }],
    ['growth light', { what: 'growth', atMost: 'light' }],
    ['strands +1', { what: 'hot strands', more: 1 }],
    ['strands -2', { what: 'hot strands', more: -2 }],
    ['spacing 10 m', { what: 'spacing', metres: 10 }],
    ['insulators aged', { what: 'insulator state', state: 'aged' }],
    ['mend', { what: 'mend' }],
    ['wire 14 ga high-tensile on west', { what: 'wire', row: '14 ga high-tensile', run: 'west' }],
    ['end insulator porcelain bullnose new', { what: 'end insulator', row: 'porcelain bullnose', state: 'new' }],
  ] as const)('%s', (words, change) => {
    expect(readChanges(words)).toEqual([change]);
  });

  test.each([
    'rods',
    'rods two',
    'rods +',
    'rods 2 of them',
    'x rods +2',
    'rods +1234',
    'spray it',
    'strands 4',
    'mend all',
    'spacing 10',
    'insulators odd',
  ])('%s is not understood, and says so', (words) => {
    expect(() => readChanges(words)).toThrow(PlanError);
  });
});

describe('what a change leaves of a plan', () => {
  test('wire, on the runs that it names, stretches included', () => {
    const found = changed('wire 16 ga high-tensile on west');
    for (const { wire } of buildOf(found, 'west').strands) expect(wire).toBe('16 ga high-tensile');
    for (const { wire } of buildOf(found, 'north').strands) expect(wire).not.toBe('16 ga high-tensile');
    expect(setOf(found, 'west').wire).toBeNull();
    expect(setOf(found, 'north').wire).toBe('14 ga high-tensile');
    // All else of the stretch stays.
    expect(setOf(found, 'west')).toEqual({ ...setOf(plan, 'west'), wire: null });
  });

  test('posts, likewise', () => {
    const found = changed('post fibreglass rod on west');
    expect(buildOf(found, 'west').post).toBe('fibreglass rod');
    expect(buildOf(found, 'north').post).toBe(buildOf(plan, 'north').post);
    expect(setOf(found, 'west')).toEqual({ ...setOf(plan, 'west'), post: null });
  });

  test('faults of one run mended, or of all', () => {
    expect(changed('mend on west').faults.map(({ run }) => run)).toEqual(['north']);
    expect(changed('mend').faults).toEqual([]);
  });

  test('rods more, fewer or so many', () => {
    const count = (words: string) => {
      const { ground } = changed(words).energizer;
      return ground.kind === 'rods' ? ground.count : null;
    };
    const { ground } = plan.energizer;
    const present = ground.kind === 'rods' ? ground.count : Number.NaN;
    expect([count('rods +2'), count('rods -1'), count('rods 7')]).toEqual([present + 2, present - 1, 7]);
  });

  test('insulators on the hot strands alone', () => {
    const p = parsePlan(
      planOf((input) => {
        input.builds['two wires'].strands[1]!['role'] = 'grounded';
      }),
    );
    const found = applyChanges(p, readChanges('insulator porcelain doughnut'), standardTables);
    for (const build of found.builds)
      for (const { role, insulator } of build.strands)
        if (role === 'grounded') expect(insulator).not.toBe('porcelain doughnut');
        else expect(insulator).toBe('porcelain doughnut');
  });

  test.each(['wire', 'post', 'insulator', 'growth', 'energizer'])(
    '%s of names that JavaScript’s own objects have are unknown rows',
    (what) => {
      for (const name of ['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf'])
        expect(() => changed(`${what} ${name}`)).toThrow(PlanError);
    },
  );
});
