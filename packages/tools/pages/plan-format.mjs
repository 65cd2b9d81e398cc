// docs/plan-format.md: every field of a plan, from its JSON Schema, with examples from the scenarios' plans.
import { parse, stringify } from 'yaml';
import { anchor, capital, table, words, written } from './markdown.mjs';

const about = `A plan is one text file, in YAML or JSON. It says what stands where, in your own units; Postvolt works out the rest and fills
in what you leave out. This page lists every field. \`postvolt check PLAN\` reads a plan over without solving it, and says for
each fault the line, what was found, and what was expected. \`postvolt schema plan\` prints the JSON Schema from which this
page was made; an editor that knows JSON Schema completes and checks fields as you write.

## How values are written

- **A quantity** is a number and its unit: \`1320 ft\`, \`0.8 mi\`, \`5 ft 6 in\`, \`12 mm\`, \`9.2 kV\`, \`35 ohm\`, \`80 ohm m\`,
  \`0.2 uS/m\`, \`6 J\`, \`120 us\`, \`-10 C\`. A number without a unit is refused, so that nobody has to guess. Wire may be written
  by gauge: \`12.5 ga\`.
- **A quantity with a range** is \`20 ohm (5 to 100)\`, or a map of \`low\`, \`typical\` and \`high\`. Without a range it is taken as
  exact.
- **A share** is \`15 %\` or \`0.15\`.
- **A place on a run** is the number of a post, counted from 0 where the run starts, or a distance along the run such as
  \`200 ft\`.
- **A name** that you give to a run, junction, build, strand or condition has no slash and at most 80 letters, and comes back
  in the results: post 40 of the run \`hill\` is \`hill/40\`.
- **A row** of [the tables](tables.md) is named by its id or one of its other spellings; upper and lower case count alike. In
  its place a row may be changed on the spot: \`{ like: nail-on claw, serviceLife: 12 years }\`.

A field marked **must** has to be there; any other may be left out. A field that Postvolt does not know is refused, with the
nearest one it knows.`;

/** The schema that a field's value may take, unions opened. */
const choices = (schema) => (schema.anyOf ? schema.anyOf.flatMap(choices) : [schema]);
const isRange = ({ properties }) => properties !== undefined && 'typical' in properties && 'low' in properties;
const isFields = (schema) => schema.properties !== undefined && !isRange(schema);
const isMap = ({ additionalProperties: inner }) => typeof inner === 'object';
const isRow = (schema) => isFields(schema) && (schema.required ?? []).includes('like');
const signature = ({ properties }) => JSON.stringify(properties);

/** Markdown of the page. `schema` is the JSON Schema of a plan, `plans` are texts to take examples from. */
export function planFormatPage({ schema, plans }) {
  const samples = new Map();
  for (const plan of plans) collect(schema, parse(plan), samples);
  const rows = rowTables(schema);
  /** Sections by their fields, in the order in which a reader meets them. */
  const sections = new Map();
  visit(schema, [], sections);
  const context = { samples, rows, sections };
  return [
    '# The plan format',
    written,
    about,
    ...[...sections.values()].map((section) => sectionText(section, context)),
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}

/** Table of each shape of a changed row, from the plan's own tables. */
function rowTables(schema) {
  // Two tables may have fields of the same names.
  const shape = (fields) =>
    JSON.stringify(
      Object.entries(fields)
        .map(([key, { description }]) => [key, description])
        .sort(),
    );
  const shapes = Object.entries(schema.properties.tables.properties).map(([name, { additionalProperties }]) => {
    const { like: _like, about: _about, ...fields } = additionalProperties.properties;
    return [shape(fields), name];
  });
  return (row) => {
    const { like: _like, ...fields } = row.properties;
    const key = shape(fields);
    const found = shapes.find(([known]) => known === key);
    if (!found) throw new Error(`no table has the fields ${key}`);
    return found[1];
  };
}

/** Finds the sections: every map of fields, changed rows aside, which the plan's own tables list. */
function visit(schema, path, sections) {
  for (const choice of choices(schema)) {
    if (isFields(choice) && !isRow(choice)) {
      const key = signature(choice);
      if (sections.has(key)) continue;
      sections.set(key, { path, schema: choice });
      for (const [name, field] of Object.entries(choice.properties)) visit(field, [...path, name], sections);
    } else if (isMap(choice)) visit(choice.additionalProperties, [...path, { each: 'name' }], sections);
    else if (choice.items) visit(choice.items, [...path, { each: 'entry' }], sections);
  }
}

const keysOf = (path) => path.filter((key) => typeof key === 'string');
const titleOf = ({ path }) => (path.length === 0 ? 'The plan' : capital(keysOf(path).map(words).join(', ')));
const placeOf = ({ path }) =>
  path
    .map((key) => (typeof key === 'string' ? `\`${key}\`` : key.each === 'name' ? '*name*' : '*each entry*'))
    .join(' › ');

function sectionText({ path, schema }, context) {
  const required = new Set(schema.required ?? []);
  const sample = context.samples.get(signature(schema)) ?? {};
  const rows = Object.entries(schema.properties).map(([name, field]) => {
    const { text, standard } = described(field);
    return [
      `\`${name}\`${required.has(name) ? ' **must**' : ''}`,
      text,
      wordsOf(field, context),
      required.has(name) ? '' : standard,
      example(field, sample[name]),
    ];
  });
  const where = path.length === 0 ? '' : `Written under ${placeOf({ path })}.\n\n`;
  return `## ${titleOf({ path })}\n\n${where}${table(['Field', 'What it is', 'Written as', 'Left out', 'Example'], rows)}`;
}

/** A description without its words on the default, and those. */
function described(field) {
  const description = (field.description ?? '').trim();
  const match = /(?:^|\s)Default:? ((?:[^.]|\.(?=\S))+)\.$/.exec(description);
  const text = match ? description.slice(0, match.index).trim() : description;
  const value = field.default ?? choices(field).find((choice) => choice.default !== undefined)?.default;
  if (match) return { text, standard: value === undefined || typeof value === 'object' ? match[1] : `\`${value}\`` };
  if (value === undefined) return { text, standard: '' };
  return {
    text,
    standard: typeof value === 'object' ? (Object.keys(value).length === 0 ? 'none' : flow(value)) : `\`${value}\``,
  };
}

/** How a value is written, in plain words. */
function wordsOf(field, context) {
  const all = choices(field);
  const one = numberOrText(all);
  if (one !== null) return one;
  const ranged = all.some(isRange);
  const parts = all
    .filter((choice) => !isRange(choice))
    .flatMap((choice) => {
      const text = choiceText(choice, all, ranged, context);
      return text === null ? [] : [text];
    });
  return [...new Set(parts)].join(', or ');
}

/** Words for a number that may also be written as a text; null for anything else. */
function numberOrText(all) {
  const number = all.find(({ type }) => type === 'number' || type === 'integer');
  const text = all.find(({ type, examples }) => type === 'string' && examples !== undefined);
  if (!number || !text) return null;
  const [sample] = text.examples;
  if (number.type === 'integer') return 'a place on a run';
  if (sample.includes('%')) return 'a share';
  if (sample.includes(' per ')) return 'a number, by the piece or for a length, with its range where you like';
  return numberText(number, true);
}

function choiceText(choice, all, ranged, context) {
  if (choice.const !== undefined) return `\`${choice.const}\``;
  if (choice.enum)
    return `${choice.enum.length > 1 ? 'one of ' : ''}${choice.enum.map((value) => `\`${value}\``).join(', ')}`;
  if (choice.type === 'null') return 'nothing';
  if (choice.type === 'boolean') return '`true` or `false`';
  if (choice.type === 'integer' || choice.type === 'number') return numberText(choice, ranged);
  if (isRow(choice)) {
    const name = context.rows(choice);
    return `a row of [${words(name)}](tables.md#${anchor(capital(words(name)))}), or one [changed](#${anchor(`Tables, ${words(name)}`)}) on the spot`;
  }
  if (isFields(choice)) {
    const section = context.sections.get(signature(choice));
    return `[fields](#${anchor(titleOf(section))})`;
  }
  if (isMap(choice)) return `a map from a name to ${wordsOf(choice.additionalProperties, context)}`;
  if (choice.prefixItems) return `a pair of numbers`;
  if (choice.items) return `a list; each entry: ${wordsOf(choice.items, context)}`;
  if (choice.type !== 'string') throw new Error(`no words for ${JSON.stringify(choice).slice(0, 80)}`);
  // The name of a row is said together with the row that may stand in its place.
  if (all.some(isRow)) return null;
  if (choice.examples) {
    return ranged ? `a quantity, with its range where you like` : 'a quantity';
  }
  return choice.pattern ? 'a name' : 'text';
}

function numberText({ minimum, maximum, type }, ranged) {
  const kind = type === 'integer' ? 'a whole number' : 'a number';
  const unbounded = maximum === undefined || maximum >= Number.MAX_SAFE_INTEGER;
  const least = minimum === undefined || minimum <= Number.MIN_SAFE_INTEGER ? null : minimum;
  const bounds = least === null ? '' : unbounded ? `, ${least} or more` : ` from ${least} to ${maximum}`;
  return `${kind}${bounds}${ranged ? ', with its range where you like' : ''}`;
}

const flow = (value) => `\`${stringify(value, { collectionStyle: 'flow', lineWidth: 0 }).trim()}\``;
const longest = 48;

/** A short example: from a plan, else from the schema. */
function example(field, sample) {
  const fits = (value) => (value === undefined || value === null || flow(value).length > longest ? '' : flow(value));
  if (sample !== undefined && fits(sample) !== '') return fits(sample);
  const most = choices(field).find(({ type }) => type === 'number')?.maximum ?? Number.POSITIVE_INFINITY;
  for (const choice of choices(field)) {
    // An example of pure numbers in general need not lie within the bounds of this one.
    if (most < 100 && choice.examples?.some((text) => /^\d+ \(/.test(text))) continue;
    const value = choice.const ?? choice.enum?.[0] ?? choice.examples?.[0];
    if (value !== undefined) return fits(value);
  }
  return '';
}

/** Keeps the first short value of every field that a plan has, by the fields of the map it stands in. */
function collect(schema, value, samples) {
  for (const choice of choices(schema)) {
    if (Array.isArray(value)) {
      if (choice.items) for (const entry of value) collect(choice.items, entry, samples);
    } else if (value !== null && typeof value === 'object') {
      if (isMap(choice)) for (const entry of Object.values(value)) collect(choice.additionalProperties, entry, samples);
      else if (isFields(choice) && Object.keys(value).every((key) => key in choice.properties)) {
        const key = signature(choice);
        const known = samples.get(key) ?? {};
        samples.set(key, known);
        for (const [name, inner] of Object.entries(value)) {
          if (known[name] === undefined || flow(known[name]).length > longest) known[name] = inner;
          collect(choice.properties[name], inner, samples);
        }
      }
    }
  }
}
