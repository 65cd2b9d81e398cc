import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { cell, withUnit, wordLimits, wordPart, wordTolerance } from './accuracy-words.js';
import { isLong } from './length.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** Where a run leaves its records, one file a source; `packages/tools/accuracy.mjs` makes docs/accuracy.md of them. */
const records = join(root, 'out', 'accuracy');
const document = join(root, 'docs', 'accuracy.md');

/** How near our value must come: by a part of theirs or an amount, or on which side of a limit it must lie. */
export type Tolerance =
  | { readonly relative: number }
  | { readonly absolute: number }
  | { readonly notAbove: number }
  | { readonly notBelow: number }
  | { readonly within: readonly [low: number, high: number] };

/** One comparison with the outside. The tolerance is fixed, with its reason, before it is run. */
export interface Comparison {
  /** What is compared, in words; unique in its file. */
  readonly quantity: string;
  /** `1` for a pure number. */
  readonly unit: string;
  /** The value as printed, or a function that gets it by other means than ours; a limit has none. */
  readonly theirs?: number | (() => number | Promise<number>);
  readonly ours: () => number | Promise<number>;
  readonly tolerance: Tolerance;
  readonly reason: string;
  /** Left out of the short form of the tests. */
  readonly inLongForm?: boolean;
}

/** Where the numbers of a source come from, in a word or two and in a sentence. */
const bases = {
  memory: ['from memory', 'Their values are printed in the source and were written down from memory of it.'],
  reckoned: ['worked out apart', 'Their values are worked out in the test by other means than ours.'],
  program: ['another program', 'Their values come from another program, which the test runs.'],
  practice: ['common practice, no source', 'Common practice, no source: what the trade says and nobody publishes.'],
} as const;

/** An outside that we are held against. */
export interface Source {
  /** Publication, standard or program. */
  readonly title: string;
  /** What it is, how the comparison is made, and what was found. */
  readonly about: string;
  readonly basis: keyof typeof bases;
}

/** One row of docs/accuracy.md. */
interface Row {
  readonly quantity: string;
  theirs: string;
  ours: string;
  difference: string;
  readonly tolerance: string;
  readonly reason: string;
  /** Whether `theirs` is a fixed number, or measured anew in every run. */
  readonly fixed: boolean;
}

/**
 * Opens a source's file of checks. The function that it returns makes a test of a comparison and records it for
 * docs/accuracy.md. One further test fails where that document does not list the same checks.
 */
export function against(fileUrl: string, source: Source): (comparison: Comparison) => void {
  const name = basename(fileURLToPath(fileUrl)).replace(/\.test\.ts$/, '');
  const rows: Row[] = [];

  afterAll(() => {
    mkdirSync(records, { recursive: true });
    const [origin, basis] = bases[source.basis];
    const record = { name, ...source, origin, basis, rows };
    writeFileSync(join(records, `${name}.json`), `${JSON.stringify(record, null, 1)}\n`);
  });

  // Skipped by the script that is about to write the document anew.
  test.skipIf(process.env['POSTVOLT_ACCURACY'] === 'write')('docs/accuracy.md lists these checks', () => {
    const expected = {
      title: source.title,
      about: [cell(source.about), bases[source.basis][1]].join(' '),
      checks: rows.map((row) => check(row.quantity, row.fixed ? row.theirs : null, row.tolerance, row.reason)),
    };
    const fixed = rows.map((row) => row.fixed);
    const listed = readSection(readFileSync(document, 'utf8'), source.title, fixed);
    expect(listed, 'docs/accuracy.md is out of date: `npm run accuracy` writes it anew').toEqual(expected);
  });

  return ({ quantity, unit, theirs, ours, tolerance, reason, inLongForm = false }) => {
    if (rows.some((row) => row.quantity === quantity)) throw new Error(`two checks are called "${quantity}"`);
    const limits = wordLimits(tolerance, unit);
    const fixed = typeof theirs !== 'function';
    const row: Row = {
      quantity,
      theirs: limits ?? (typeof theirs === 'number' ? withUnit(theirs, unit) : ''),
      ours: 'not measured',
      difference: '',
      tolerance: wordTolerance(tolerance, unit),
      reason,
      fixed,
    };
    rows.push(row);
    test.skipIf(inLongForm && !isLong)(quantity, async () => {
      const value = await ours();
      const reference = typeof theirs === 'function' ? await theirs() : theirs;
      row.ours = withUnit(value, unit);
      if (!fixed) row.theirs = withUnit(reference!, unit);
      if (reference !== undefined) {
        row.difference =
          'absolute' in tolerance || reference === 0
            ? withUnit(value - reference, unit, 2)
            : wordPart((value - reference) / reference);
      }
      expect(holds(value, reference, tolerance), `ours ${value} ${unit}, theirs ${reference ?? limits}`).toBe(true);
    });
  };
}

function holds(ours: number, theirs: number | undefined, tolerance: Tolerance): boolean {
  if ('notAbove' in tolerance) return ours <= tolerance.notAbove;
  if ('notBelow' in tolerance) return ours >= tolerance.notBelow;
  if ('within' in tolerance) return ours >= tolerance.within[0] && ours <= tolerance.within[1];
  if (theirs === undefined || !Number.isFinite(theirs)) return false;
  const off = Math.abs(ours - theirs);
  return 'absolute' in tolerance ? off <= tolerance.absolute : off <= tolerance.relative * Math.abs(theirs);
}

/** What identifies a check in the document: all but what is measured anew in every run. */
const check = (quantity: string, theirs: string | null, tolerance: string, reason: string): string =>
  [quantity, theirs ?? 'measured', tolerance, reason].map(cell).join(' | ');

/** A source's part of the document. */
function readSection(text: string, title: string, fixed: readonly boolean[]) {
  const lines = text.split('\n');
  const start = lines.indexOf(`## ${title}`);
  if (start < 0) return { title: null };
  const after = lines.slice(start + 1);
  const end = after.findIndex((line) => line.startsWith('## '));
  const section = end < 0 ? after : after.slice(0, end);
  const firstRow = section.findIndex((line) => line.startsWith('|'));
  const about = section.slice(0, firstRow).join(' ').trim();
  const body = section.slice(firstRow + 2).filter((line) => line.startsWith('|'));
  const checks = body.map((line, n) => {
    const [quantity = '', theirs = '', , , tolerance = '', reason = ''] = line
      .slice(1, -1)
      .split(/(?<!\\)\|/)
      .map((text) => text.trim().replaceAll('\\|', '|'));
    return check(quantity, fixed[n] === true ? theirs : null, tolerance, reason);
  });
  return { title, about, checks };
}
