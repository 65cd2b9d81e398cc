// `pnpm bench`: measures the built engine, one child process a case, and prints a table.
//   --json            rows as JSON instead
//   --write           puts the table into docs/performance.md
//   --repeats=N       repeats a case, 31 if not given
//   any other word    only the cases whose names contain it
import { fork } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { root, setUp } from '../../packages/tools/setup.mjs';

const flags = process.argv.slice(2);
const json = flags.includes('--json');
const repeats = Number(flags.find((flag) => flag.startsWith('--repeats='))?.slice(10) ?? 31);
const words = flags.filter((flag) => !flag.startsWith('--'));

await setUp();
const { cases } = await import('./cases.mjs');

function measure(index) {
  const child = fileURLToPath(new URL('./child.mjs', import.meta.url));
  return new Promise((resolve, reject) => {
    // The million is measured as a program would meet it; the others have garbage cleared outside the clock.
    const execArgv = cases[index].once ? [] : ['--expose-gc'];
    const process_ = fork(child, [String(index), String(repeats)], { execArgv });
    let rows;
    process_.on('message', (message) => {
      rows = message;
    });
    process_.on('exit', (code) =>
      rows ? resolve(rows) : reject(new Error(`${cases[index].name}: exit code ${code}`)),
    );
  });
}

/** Ratio of a row, and whether it is what was aimed at; undefined where nothing was. */
function judge({ ours, theirs, aim, atLeast, atMost }) {
  if (theirs === undefined) return {};
  if (atLeast !== undefined) return { ratio: theirs / ours, goal: `≥ ${atLeast}`, met: theirs / ours >= atLeast };
  if (atMost !== undefined) return { ratio: theirs / ours, goal: `≤ ${atMost}`, met: theirs / ours <= atMost };
  if (aim !== undefined) return { ratio: ours / theirs, goal: `≤ ${aim}`, met: ours / theirs <= aim };
  return { ratio: ours >= theirs ? ours / theirs : theirs / ours };
}

const rows = [];
for (const [index, { name }] of cases.entries()) {
  if (words.length > 0 && !words.some((word) => name.includes(word))) continue;
  if (!json) console.error(`${name} ...`);
  for (const row of await measure(index)) {
    rows.push({ name: row.part ? `${name}: ${row.part}` : name, unit: 'ms', ...row, ...judge(row) });
  }
}

const figure = (value) => (value === undefined ? '' : value >= 100 ? value.toFixed(0) : value.toPrecision(3));
const table = [
  '| what | nodes | ours | held against | theirs | ratio | goal |',
  '|---|---:|---:|---|---:|---:|---:|',
  ...rows.map(({ name, nodes, unit, ours, theirs, against, note, ratio, goal, met, atLeast, aim }) => {
    const faster = atLeast !== undefined || (aim === undefined && theirs > ours);
    const times =
      ratio === undefined || unit === 'digits'
        ? ''
        : `${figure(ratio)} ×${faster && goal === undefined ? ' slower' : ''}`;
    const cells = [
      name,
      nodes ?? '',
      `${figure(ours)} ${unit}`,
      note ? `${against}; ${note}` : against,
      theirs === undefined ? '' : `${figure(theirs)} ${unit}`,
      times,
      goal === undefined ? '' : `${unit === 'digits' ? '≥ 12' : goal}${met ? '' : ' **missed**'}`,
    ];
    return `| ${cells.join(' | ')} |`;
  }),
].join('\n');

const machine = `${cpus()[0].model.trim()}, ${cpus().length} cores, ${(totalmem() / 2 ** 30).toFixed(0)} GiB, ${process.platform} ${process.arch}, Node ${process.versions.node} (V8 ${process.versions.v8})`;
console.log(json ? JSON.stringify({ machine, repeats, rows }, null, 1) : `${machine}\n\n${table}`);

if (flags.includes('--write')) {
  const file = join(root, 'docs', 'performance.md');
  const text = readFileSync(file, 'utf8');
  const [start, end] = ['<!-- measured: begin -->', '<!-- measured: end -->'];
  const [before, after] = [text.split(start)[0], text.split(end)[1]];
  writeFileSync(
    file,
    `${before}${start}\nMachine: ${machine}. Medians of ${repeats} repeats.\n\n${table}\n${end}${after}`,
  );
}
