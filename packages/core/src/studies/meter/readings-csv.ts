import type { Issue, Outcome } from '../../issue.js';
import { Reporter } from '../../plan/reporter.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { suggestion } from '../../plan/suggest.js';
import { type MeterReadings, type ReadingsOptions, readReadings } from './readings.js';

/** Columns that are read; the printed sheet's others are passed over. */
const columns = ['post', 'strand', 'kV', 'amps', 'towards', 'from'] as const;
const sheetColumns = ['condition', 'reason', 'name', 'distance', 'expected', 'low', 'high'];

/** True for text whose first line of content is a CSV heading that starts with `post`. */
export const isReadingsCsv = (text: string): boolean => /^\uFEFF?(?:\s|#[^\n]*\n)*"?post"?\s*[,;\t]/i.test(text);

/** Reads readings from CSV as RFC 4180 has it; the separator may be a comma, a semicolon or a tab, and `#` starts a remark. */
export function readingsFromCsv(
  text: string,
  plan: ResolvedPlan,
  options: ReadingsOptions = {},
): Outcome<MeterReadings> {
  const report = new Reporter();
  const [head, ...rows] = rowsOf(text.replace(/^\uFEFF/, ''));
  const names = head!.cells.map((cell) => cell.trim());
  const at = new Map<string, number>();
  names.forEach((name, c) => {
    const column = columns.find((known) => known.toLowerCase() === name.toLowerCase());
    if (column !== undefined) at.set(column, c);
    else if (!sheetColumns.some((known) => name.toLowerCase().startsWith(known)))
      report.warn(
        'unknown-column',
        ['readings'],
        `the column "${name}"`,
        `one of ${columns.join(', ')}`,
        suggestion(name, columns),
      );
  });
  const lines: number[] = [];
  const readings = rows.map(({ cells, line }) => {
    lines.push(line);
    const cell = (column: string) => {
      // An apostrophe that kept a spreadsheet from reading a formula.
      const value = (cells[at.get(column) ?? -1]?.trim() ?? '').replace(/^'(?=[=+\-@])/, '');
      return value === '' ? null : value;
    };
    const number = (column: string) => {
      const value = cell(column);
      // What is no number is left as it stands, for the schema to refuse.
      return value === null || !Number.isFinite(Number(value)) ? value : Number(value);
    };
    return {
      post: cell('post') ?? '',
      strand: cell('strand'),
      kV: number('kV'),
      amps: number('amps'),
      towards: cell('towards'),
      from: cell('from'),
    };
  });
  const outcome = readReadings({ readings }, plan, options);
  const placed = (issue: Issue): Issue => {
    const line = issue.path[0] === 'readings' ? lines[Number(issue.path[1])] : undefined;
    return line === undefined ? issue : { ...issue, at: { line, column: 1 } };
  };
  const issues = [...outcome.issues.map(placed), ...report.issues];
  return outcome.ok ? { ...outcome, issues } : { ok: false, issues };
}

/** Rows of cells, quotes resolved, each with the line that it starts on; empty lines and remarks are left out. */
function rowsOf(text: string): { readonly cells: string[]; readonly line: number }[] {
  const rows: { cells: string[]; line: number }[] = [];
  let cells: string[] = [];
  let cell = '';
  let quoted = false;
  let line = 1;
  let start = 1;
  const separator = /[,;\t]/.exec(text.replace(/^(?:\s|#[^\n]*\n)*/, ''))?.[0] ?? ',';
  const endRow = () => {
    cells.push(cell);
    const isRemark = cells[0]!.trimStart().startsWith('#');
    if (!isRemark && cells.some((content) => content.trim() !== '')) rows.push({ cells, line: start });
    cells = [];
    cell = '';
    start = line;
  };
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!;
    if (c === '\n') line++;
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') cell += text[++i]!;
      else quoted = false;
    } else if (c === '"' && cell.trim() === '') {
      quoted = true;
      cell = '';
    } else if (c === separator) {
      cells.push(cell);
      cell = '';
    } else if (c === '\n') endRow();
    else if (c !== '\r') cell += c;
  }
  endRow();
  return rows;
}
