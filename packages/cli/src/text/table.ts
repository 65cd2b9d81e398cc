import { type Colours, noColours } from './colours.js';
import { cut, pad, widthOf } from './lines.js';

export interface Column {
  readonly head: string;
  /** Numbers stand at the right; left by default. */
  readonly align?: 'left' | 'right';
  /** May be cut where the table would be too wide. */
  readonly gives?: boolean;
}

export interface Row {
  readonly cells: readonly string[];
  readonly style?: (text: string) => string;
}

const gap = '  ';
/** A column that gives way keeps at least this. */
const least = 8;

/** A table with a line of headings, indented, at most `width` columns wide. */
export function table(
  columns: readonly Column[],
  rows: readonly Row[],
  { width, indent = '', colours = noColours }: { width: number; indent?: string; colours?: Colours },
): string {
  const widths = columns.map(({ head }, i) =>
    Math.max(widthOf(head), ...rows.map(({ cells }) => widthOf(cells[i] ?? ''))),
  );
  narrow(widths, columns, width - indent.length - gap.length * (columns.length - 1));
  const line = (cells: readonly string[]) =>
    (
      indent +
      columns.map(({ align }, i) => pad(cut(cells[i] ?? '', widths[i]!), widths[i]!, align ?? 'left')).join(gap)
    ).trimEnd();
  return [
    colours.faint(line(columns.map(({ head }) => head))),
    ...rows.map(({ cells, style }) => (style ? style(line(cells)) : line(cells))),
  ].join('\n');
}

/** Takes columns away from the widest that gives way until all fit, or none can give more. */
function narrow(widths: number[], columns: readonly Column[], room: number): void {
  let over = widths.reduce((sum, w) => sum + w, 0) - room;
  while (over > 0) {
    const widest = columns.reduce((best, { gives }, i) => (gives && widths[i]! > (widths[best] ?? 0) ? i : best), -1);
    if (widest < 0 || widths[widest]! <= least) return;
    widths[widest]!--;
    over--;
  }
}
