import fc from 'fast-check';

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** Values that have broken readers before, and quantities good and bad. */
const nasty: fc.Arbitrary<Json> = fc.oneof(
  fc.constantFrom<Json>(null, true, false, 0, -1, 1, 1e9, 1e308, -0, 0.5, '', ' ', [], {}, [[]], [null]),
  fc.constantFrom(
    '400 m',
    '1e9 mi',
    '-3 ft',
    '0 m',
    '5 ft 6 in',
    '1,320 ft',
    '12.5 ga',
    '12 AWG',
    '9.2 kV',
    '100 Ω·m',
    '10 %',
    '-5 °C',
    'NaN m',
    'Infinity ft',
    '1e400 V',
    '20 kohm (10 to 40)',
    '20 (40 to 10) ohm',
    '0x10 m',
    'm',
    '3',
    '½ in',
    '１２ m',
    '5 ft ft',
  ),
  fc.constantFrom(
    '__proto__',
    'constructor',
    'toString',
    'wood',
    'wet',
    'a',
    'b',
    'r',
    'top',
    'cattle',
    '2.5 mm',
    'none',
    'all',
  ),
  fc.string({ maxLength: 12 }),
  fc.double(),
  fc.integer(),
  fc.dictionary(fc.string({ maxLength: 6 }), fc.constantFrom<Json>(1, 'x', null), { maxKeys: 2 }) as fc.Arbitrary<Json>,
);

interface Step {
  readonly at: number;
  readonly how: 'replace' | 'delete' | 'rename' | 'copy' | 'add';
  readonly value: Json;
  readonly key: string;
  readonly from: number;
}

const step: fc.Arbitrary<Step> = fc.record({
  at: fc.nat(),
  how: fc.constantFrom('replace', 'replace', 'replace', 'delete', 'rename', 'copy', 'add'),
  value: nasty,
  key: fc.oneof(
    fc.constantFrom('lenght', 'soils', 'post', 'strand', 'growth', 'like', '__proto__', 'conditions', 'openIn'),
    fc.string({ maxLength: 8 }),
  ),
  from: fc.nat(),
}) as fc.Arbitrary<Step>;

/** Every place of a document that a step may change: its container and key. */
function places(root: Json): [container: Json[] | { [key: string]: Json }, key: string | number][] {
  const found: [Json[] | { [key: string]: Json }, string | number][] = [];
  const visit = (value: Json) => {
    if (typeof value !== 'object' || value === null) return;
    for (const key of Object.keys(value)) {
      const at = Array.isArray(value) ? Number(key) : key;
      found.push([value, at]);
      visit((value as Record<string, Json>)[key]!);
    }
  };
  visit(root);
  return found;
}

function put(container: object, key: string | number, value: Json): void {
  Object.defineProperty(container, key, { value, writable: true, enumerable: true, configurable: true });
}

function apply(root: Json, { at, how, value, key, from }: Step): void {
  const all = places(root);
  if (all.length === 0) return;
  const [container, place] = all[at % all.length]!;
  const present = (container as Record<string | number, Json>)[place]!;
  if (how === 'replace') put(container, place, value);
  else if (how === 'copy') {
    const [other, otherKey] = all[from % all.length]!;
    put(container, place, structuredClone((other as Record<string | number, Json>)[otherKey]!));
  } else if (Array.isArray(container)) {
    if (how === 'delete') container.splice(Number(place), 1);
    else container.splice(Number(place), 0, structuredClone(how === 'add' ? value : present));
  } else if (how === 'add') put(container, key, value);
  else {
    delete container[place];
    if (how === 'rename') put(container, key, present);
  }
}

/** Documents some steps away from the given ones. */
export const mutants = (documents: readonly Json[]): fc.Arbitrary<Json> =>
  fc.tuple(fc.nat(documents.length - 1), fc.array(step, { minLength: 1, maxLength: 4 })).map(([n, steps]) => {
    const root = structuredClone(documents[n]!);
    for (const one of steps) apply(root, one);
    return root;
  });

/** Texts with pieces cut out, doubled, swapped or put in. */
export const mutantTexts = (texts: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(
      fc.nat(texts.length - 1),
      fc.array(
        fc.record({
          at: fc.double({ min: 0, max: 1, noNaN: true }),
          cut: fc.nat(30),
          put: fc.oneof(
            fc.constantFrom(
              '',
              ' ',
              '\n',
              ':',
              '- ',
              '{',
              '}',
              '[',
              ']',
              '"',
              '&a ',
              '*a',
              '!!binary ',
              '? ',
              '|',
              '#',
              '\t',
              '%',
              '---\n',
              '<<: ',
              '\u0000',
              '９',
            ),
            fc.string({ maxLength: 6 }),
          ),
        }),
        { minLength: 1, maxLength: 4 },
      ),
    )
    .map(([n, edits]) => {
      let text = texts[n]!;
      for (const { at, cut, put: piece } of edits) {
        const from = Math.floor(at * text.length);
        text = text.slice(0, from) + piece + text.slice(from + cut);
      }
      return text;
    });

const unit = fc.constantFrom(
  'm',
  'ft',
  'in',
  'mi',
  'km',
  'ga',
  'AWG',
  'V',
  'kV',
  'Ω',
  'ohm',
  'kohm',
  'Ω·m',
  'uS/m',
  '%',
  'J',
  'us',
  '°C',
  '°F',
  'degF',
  'furlong',
  '',
  'm/s',
  '°',
  "'",
  '"',
);
const numeral = fc.oneof(
  fc.double().map(String),
  fc.integer().map((n) => n.toLocaleString('en')),
  fc.constantFrom('1/2', '5/8', '12½', '½', '1,5', '1.2.3', '--4', '+3', '1e999', '.5', '5.', '٣', '1_000', '0b11', ''),
);

/** Texts that are nearly quantities. */
export const quantityTexts: fc.Arbitrary<string> = fc.oneof(
  fc.tuple(numeral, fc.constantFrom('', ' ', '  ', '\u00a0'), unit).map((parts) => parts.join('')),
  fc.tuple(numeral, unit, numeral, unit).map(([a, b, c, d]) => `${a} ${b} ${c} ${d}`),
  fc.tuple(numeral, unit, numeral, numeral).map(([a, b, c, d]) => `${a} ${b} (${c} to ${d})`),
  fc.string({ maxLength: 20 }),
  fc.string({ unit: 'binary', maxLength: 10 }),
);
