import { type InsulatorState, insulatorStates } from '@postvolt/tables';
import { readQuantity } from '../../quantity/quantity.js';
import type { PlanChange, PlanVariant } from './change.js';
import { refuse } from './refuse.js';

/** How changes are written, for messages and help. */
export const changeForms = [
  'insulator NAME [STATE]',
  'end insulator NAME [STATE]',
  'insulators STATE',
  'wire NAME',
  'post NAME',
  'spacing LENGTH',
  'strands +1',
  'growth NAME',
  'spray',
  'rods +2',
  'rods 5',
  'energizer CLASS',
  'mend',
] as const;

const isState = (text: string): text is InsulatorState => (insulatorStates as readonly string[]).includes(text);

type Maker = (rest: string, fail: (expected: string) => never) => PlanChange;

const name = (rest: string, what: string, fail: (expected: string) => never): string =>
  rest === '' ? fail(`\`${what}\` and the name of a row`) : rest;

const insulator =
  (what: 'insulator' | 'end insulator'): Maker =>
  (rest, fail) => {
    const words = name(rest, what, fail).split(' ');
    const last = words.at(-1)!;
    if (words.length > 1 && isState(last)) return { what, row: words.slice(0, -1).join(' '), state: last };
    return { what, row: rest };
  };

/** By first words, the longer ones first. */
const makers: readonly (readonly [words: string, make: Maker])[] = [
  ['end insulator', insulator('end insulator')],
  [
    'insulators',
    (rest, fail) =>
      isState(rest) ? { what: 'insulator state', state: rest } : fail(`one of ${insulatorStates.join(', ')}`),
  ],
  ['insulator', insulator('insulator')],
  ['wire', (rest, fail) => ({ what: 'wire', row: name(rest, 'wire', fail) })],
  ['post', (rest, fail) => ({ what: 'post', row: name(rest, 'post', fail) })],
  [
    'spacing',
    (rest, fail) => {
      const read = readQuantity(rest, 'length', { above: 0, most: 1000 });
      return read.ok ? { what: 'spacing', metres: read.value } : fail('`spacing` and a length such as 60 ft');
    },
  ],
  [
    'strands',
    (rest, fail) =>
      /^[+−-]\d{1,2}$/.test(rest)
        ? { what: 'hot strands', more: Number(rest.replace('−', '-')) }
        : fail('`strands +1` or `strands -1`'),
  ],
  ['growth', (rest, fail) => ({ what: 'growth', atMost: name(rest, 'growth', fail) })],
  ['spray', (rest, fail) => (rest === '' ? { what: 'growth', atMost: 'none' } : fail('`spray` alone'))],
  [
    'rods',
    (rest, fail) => {
      if (/^[+−-]\d{1,3}$/.test(rest)) return { what: 'rods', more: Number(rest.replace('−', '-')) };
      return /^\d{1,3}$/.test(rest) ? { what: 'rods', count: Number(rest) } : fail('`rods +2` or `rods 5`');
    },
  ],
  ['energizer', (rest, fail) => ({ what: 'energizer', row: name(rest, 'energizer', fail) })],
  ['mend', (rest, fail) => (rest === '' ? { what: 'mend' } : fail('`mend` alone'))],
];

/**
 * Reads changes as a person writes them: `rods +2`, `insulator porcelain doughnut new on north`, several after commas.
 *
 * @throws PlanError where a change is not understood.
 */
export function readChanges(text: string, path: readonly (string | number)[] = ['change']): PlanChange[] {
  return text.split(',').map((part) => {
    const words = part.trim().replace(/\s+/g, ' ');
    const on = / on (.+)$/.exec(words);
    const body = on === null ? words : words.slice(0, on.index);
    const found = `"${part.trim()}"`;
    const made = makers.find(([first]) => body === first || body.startsWith(`${first} `));
    if (made === undefined) return refuse(path, found, `a change such as ${changeForms.join(', ')}`);
    const change = made[1](body.slice(made[0].length).trim(), (expected) => refuse(path, found, expected));
    if (on === null) return change;
    if (change.what === 'rods' || change.what === 'energizer')
      return refuse(path, found, `\`${change.what}\` without a run: there is one of it`);
    return { ...change, run: on[1]! };
  });
}

/**
 * Reads variants: a map from a name to changes as text, or to a list of them.
 *
 * @throws PlanError where something is not understood.
 */
export function readVariants(input: unknown): PlanVariant[] {
  if (typeof input !== 'object' || input === null || Array.isArray(input))
    return refuse(
      [],
      Array.isArray(input) ? 'a list' : 'no map',
      'a map from names to changes, such as `sprayed: spray`',
    );
  return Object.entries(input).map(([variant, changes]) => {
    const list: unknown[] = Array.isArray(changes) ? changes : [changes];
    return {
      name: variant,
      changes: list.flatMap((change, i) => {
        const path = Array.isArray(changes) ? [variant, i] : [variant];
        return typeof change === 'string'
          ? readChanges(change, path)
          : refuse(path, JSON.stringify(change) ?? 'nothing', 'a change such as `rods +2`');
      }),
    };
  });
}
