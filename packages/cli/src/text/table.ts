import { type Colours, noColours } from './colours.js';
import { cut, pad, plain, widthOf, wrap } from './lines.js';

export interface Column {
  readonly head: string;
  /** Numbers stand at the right; left by default. */
  readonly align?: 'left' | 'right';
  /** May go on in a second line where the table would be too wide. */
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
    rows.reduce((most, { cells }) => Math.max(most, widthOf(plain(cells[i] ?? ''))), widthOf(head)),
  );
  narrow(widths, columns, width - indent.length - gap.length * (columns.length - 1));
  const lines = (cells: readonly string[]): string[] => {
    const parts = columns.map((_, i) => fit(plain(cells[i] ?? ''), widths[i]!));
    const height = Math.max(...parts.map((part) => part.length));
    return Array.from({ length: height }, (_, line) =>
      (indent + columns.map(({ align }, i) => pad(parts[i]![line] ?? '', widths[i]!, align)).join(gap)).trimEnd(),
    );
  };
  return [
    ...lines(columns.map(({ head }) => head)).map(colours.faint),
    ...rows.flatMap(({ cells, style }) => (style ? lines(cells).map(style) : lines(cells))),
  ].join('\n');
}

/** A cell's lines: one where it fits, else broken at spaces and its longer words cut. */
const fit = (text: string, width: number): string[] =>
  widthOf(text) <= width ? [text] : wrap(text, width).map((line) => cut(line, width));

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
