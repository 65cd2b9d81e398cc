// docs/tables.md: every row of the reference tables, with range, unit, basis and source of each value.
import { capital, table, words, written } from './markdown.mjs';

const about = `Every number that Postvolt reckons with and that a plan does not give. Each has a low, a typical and a high value: the typical
one is reckoned with, the range is what \`spread\` draws from and what readings narrow. The basis says what stands behind it:

| Basis | Means |
|---|---|
| standard, handbook, extension | printed in the named publication |
| common practice | known to the trade, published nowhere that we know of |
| derived | worked out by a named formula |
| estimate | an engineering estimate: replace it, or fit it to readings |

"From memory" means that the printed text did not lie open when the value was written down. A plan replaces any value; see
[the plan format](plan-format.md#tables). \`postvolt tables NAME\` prints the same on the command line.`;

const headings = {
  wires: 'Fence wire, poly conductors and insulated cable.',
  insulators: 'Line and end insulators, and the bare staple of a grounded strand.',
  films: 'The film of dirt and damp on an insulator, by its state and wetness.',
  posts: 'Posts: the way through the post, and into the soil.',
  soils: 'Soils by moisture; topsoil and rod depth apart.',
  groundCovers: 'What lies under the hooves.',
  vegetation: 'Growth that touches a strand.',
  growthWetness: 'How growth conducts by its wetness, wet being 1.',
  animals: 'What holds an animal, and what it conducts.',
  energizers: 'Generic classes of energizer, of no make: peak volts at test loads. The joules are only a label.',
  rods: 'Ground rods.',
  joints: 'Splices, jumpers and switches, in series with the wire.',
  faults: 'What a single fault does.',
  cautions: 'Cautions, in our own words after their sources. Local codes and a licensed electrician decide.',
};

const heads = ['Value', 'Low', 'Typical', 'High', 'Unit', 'Basis', 'Source'];
const right = ['Low', 'Typical', 'High', 'Source'];

/** Markdown of the page, from the exports of `@postvolt/tables` and core's `rangeFigures`. */
export function tablesPage({ tables, rangeFigures }) {
  const { standardTables, cellsOf, wireOhmsPerMetre } = tables;
  const sources = sourceList();

  const line = (name, cell) => {
    const { low, typical, high, unit } = rangeFigures(cell);
    const memory = cell.fromMemory ? ', from memory' : '';
    return [name, low, typical, high, unit, `${cell.basis}${memory}`, sources.number(cell.source)];
  };
  const cellsIn = (row, name) => {
    const cells = [...cellsOf(row)].map(([path, cell]) => line(label(row, path), cell));
    // What a solve uses of a metal wire follows from its metal and size.
    if (name === 'wires' && row.ohmsPerMetre === null)
      cells.push(line('resistance to the pulse (5 kHz, 20 °C)', wireOhmsPerMetre(row)));
    return cells;
  };
  const rowText = (name) => (row) =>
    parts([
      `### ${capital(row.id)}`,
      parts([row.about ?? '', row.text ?? '', facts(row)], ' '),
      row.source ? `Source: ${row.source}.` : '',
      rowTable(cellsIn(row, name)),
    ]);

  const standard = Object.entries(standardTables).map(([name, rows]) =>
    parts([
      `## ${capital(words(name))}`,
      headings[name] ?? missing(name),
      Array.isArray(rows) ? parts(rows.map(rowText(name))) : rowTable(cellsIn(rows, name)),
    ]),
  );
  return `${parts([
    '# The reference tables',
    written,
    about,
    ...standard,
    weathersText(tables),
    climatesText(tables, line),
    patternsText(tables, sources),
    pricesText(tables, line),
    `## Sources\n\n${sources.list()}`,
  ])}\n`;
}

const parts = (texts, between = '\n\n') => texts.filter((text) => text !== '').join(between);
const rowTable = (cells) => (cells.length === 0 ? '' : table(heads, cells, right));
const missing = (name) => {
  throw new Error(`no words for the table ${name}`);
};

/** Sources numbered in the order in which they are met. */
function sourceList() {
  const numbers = new Map();
  return {
    number(source) {
      if (!numbers.has(source)) numbers.set(source, numbers.size + 1);
      return `[${numbers.get(source)}](#sources)`;
    },
    list: () => [...numbers].map(([source, number]) => `${number}. ${source}`).join('\n'),
  };
}

/** What a row holds beside its name, its sentence and its values. */
function facts(row) {
  const told = ['id', 'aliases', 'about', 'text', 'source', 'basis'];
  const others = Object.entries(row).flatMap(([key, value]) => {
    if (told.includes(key)) return [];
    const list = Array.isArray(value) && value.every((entry) => typeof entry === 'string') ? value.join(', ') : value;
    return (typeof list === 'string' && list !== '') || typeof list === 'number'
      ? [`${key === 'koppen' ? 'Class after Köppen' : capital(words(key))}: ${list}.`]
      : [];
  });
  if (row.aliases?.length > 0) others.push(`Also written ${row.aliases.map((alias) => `\`${alias}\``).join(', ')}.`);
  return others.join(' ');
}

/** `throughOhms.dry` as `through ohms, dry`; a test load by its ohms. */
function label(row, path) {
  if (path[0] === 'loads') {
    const { ohms } = row.loads[path[1]];
    return ohms === null ? 'volts, open circuit' : `volts at ${ohms} Ω`;
  }
  const names = path.map((key) =>
    words(
      String(key)
        .replace(/PerOhmM$/, 'PerOhmMetre')
        .replace(/(?<=[a-z])(OhmM|M|N|C)$/, ''),
    ),
  );
  return names.length === 0 ? 'value' : names.join(', ');
}

const weathersText = ({ weathers }) =>
  parts([
    '## Weather',
    'Kinds of weather for `postvolt months`; each moves film, wood, growth, soil and ground cover together.',
    table(
      ['Weather', 'What it is', 'Soil', 'Film', 'Posts', 'Growth', 'Underfoot', 'Basis'],
      weathers.map(({ id, about, soil, film, post, growth, groundCover, basis, source }) => [
        ...[id, about, soil, film, post, growth, groundCover],
        basisOf({ basis, source }),
      ]),
    ),
  ]);

/** Basis and source, once where the source begins with the basis. */
const basisOf = ({ basis, source }) =>
  source.replace('engineering ', '').startsWith(basis) ? source : `${basis}: ${source}`;

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

function climatesText({ climates }, line) {
  const texts = climates.map((climate) =>
    parts([
      `### ${capital(climate.id)}`,
      parts([climate.about, facts(climate)], ' '),
      `Basis: ${basisOf(climate)}.`,
      table(
        ['Month', 'Weather', 'Growth', 'Height, of its usual', 'Wire, °C'],
        climate.months.map(({ weathers, growth, heightFactor, temperatureC }, i) => [
          months[i],
          weathers.join(', '),
          growth,
          span(line('', heightFactor)),
          span(line('', temperatureC)),
        ]),
      ),
    ]),
  );
  return parts([
    '## Climates',
    'What each month brings, as it comes north of the equator; south of it the months are shifted by six.',
    ...texts,
  ]);
}

const span = ([, low, typical, high]) => (low === high ? typical : `${typical} (${low} to ${high})`);

function patternsText({ patterns }, sources) {
  const strands = (spec) =>
    spec === null
      ? 'none known'
      : `${spec.strands
          .map(
            ({ heightM, role }) => `${Number((heightM / 0.0254).toFixed(1))}${role === 'grounded' ? ' grounded' : ''}`,
          )
          .join(', ')} ${sources.number(spec.source)}${spec.fromMemory ? ', from memory' : ''}`;
  return parts([
    '## Fence patterns',
    'Usual fences by animal, for `postvolt draft`: heights of the strands in inches from the ground up, hot unless it says grounded.',
    table(
      ['Pattern', 'Animals', 'Use', 'What it is', 'In practice', 'Published'],
      patterns.map(({ id, animals, use, about, practice, published }) => [
        ...[id, animals.join(', '), use, about],
        strands(practice),
        strands(published),
      ]),
    ),
  ]);
}

function pricesText({ prices, works, labourPerHour }, line) {
  const rows = prices.map(({ id, about, group, money, serviceYears }) => {
    const [, ...figures] = line('', money);
    return [id, about, group, ...figures, serviceYears === null ? '' : span(line('', serviceYears))];
  });
  const work = works.map(({ id, about, hours }) => {
    const [, ...figures] = line('', hours);
    return [id, about, ...figures];
  });
  const figures = ['Low', 'Typical', 'High', 'Unit', 'Basis', 'Source'];
  return parts([
    '## Prices',
    'Invented default rates, so that sums can be shown before you have prices; in units of money without a currency. Put your own under `prices` in the plan.',
    table(['Thing', 'What it is', 'Heading', ...figures, 'Years of service'], rows, right),
    '### Work',
    'Hours that one person takes, walking and tools included.',
    table(
      ['Work', 'What it is', ...figures],
      [...work, ['labour', 'Price of an hour of work.', ...line('', labourPerHour).slice(1)]],
      right,
    ),
  ]);
}
