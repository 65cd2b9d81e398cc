import {
  type ConditionResult,
  comparedVolts,
  formatLength,
  formatVolts,
  lowestHot,
  type PlanResult,
} from '@postvolt/core';

/** How a profile of volts is written as text. */
export interface TextProfileOptions {
  /** Widest line, in columns. Default 80. */
  readonly columns?: number;
  /** Rows of the plot. Default 5. */
  readonly rows?: number;
  /** Only characters of ASCII. */
  readonly ascii?: boolean;
}

interface Signs {
  /** Fillings of a cell, from empty to full. */
  readonly fill: readonly string[];
  readonly side: string;
  readonly corner: string;
  readonly base: string;
  readonly target: string;
}

const unicode: Signs = { fill: [...' ▁▂▃▄▅▆▇█'], side: '│', corner: '└', base: '─', target: '┄' };
const plain: Signs = { fill: [' ', '.', '#'], side: '|', corner: '+', base: '-', target: '-' };

/**
 * A small plot for a terminal: the lowest volts of the fence by distance from the energizer, a column a stretch, with a
 * dashed line at the target where the fence stays below it. Lines without a line break at the end of the last; empty where
 * no post is fed.
 */
export function textProfile(result: PlanResult, condition: ConditionResult, options: TextProfileOptions = {}): string {
  const { columns = 80, rows = 5, ascii = false } = options;
  const signs = ascii ? plain : unicode;
  const posts = fedPosts(result, condition);
  if (posts.length === 0) return '';
  const longestM = posts.reduce((most, { distanceM }) => Math.max(most, distanceM), 1);
  const highest = posts.reduce((most, { volts }) => Math.max(most, volts), result.target.volts);
  const step = stepOf(highest / rows);
  const labels = Array.from({ length: rows + 1 }, (_, row) => kilovolts(row * step));
  const margin = Math.max(...labels.map((text) => text.length));
  const width = Math.max(10, Math.min(columns, 80) - margin - 2);
  const lows = lowestByColumn(posts, longestM, width);
  const targetRow = Math.min(rows - 1, Math.floor(result.target.volts / step));
  const lines: string[] = [];
  for (let row = rows - 1; row >= 0; row--) {
    const cells = lows.map((volts) => {
      const filled = Math.max(0, Math.min(1, volts / step - row));
      const sign = signs.fill[Math.round(filled * (signs.fill.length - 1))]!;
      return sign === ' ' && row === targetRow ? signs.target : sign;
    });
    lines.push(`${labels[row + 1]!.padStart(margin)} ${signs.side}${cells.join('').trimEnd()}`);
  }
  const words = `kV by distance; ${signs.target}${signs.target} target ${formatVolts(result.target.volts)}`;
  const far = formatLength(longestM, result.units);
  const middle = width - far.length - 1 > words.length + 4 ? centred(words, width - far.length - 1) : '';
  lines.push(`${labels[0]!.padStart(margin)} ${signs.corner}${signs.base.repeat(width)}`);
  lines.push(`${' '.repeat(margin + 2)}0${middle.padEnd(width - far.length - 1)}${far}`);
  return lines.join('\n');
}

const centred = (text: string, width: number): string => ' '.repeat(Math.floor((width - text.length) / 2)) + text;

const kilovolts = (volts: number): string => String(Number((volts / 1000).toFixed(2)));

/** A round step of volts a row: 1, 2, 2.5 or 5 times a power of ten. */
function stepOf(least: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(least, 1)));
  return power * ([1, 2, 2.5, 5, 10].find((round) => round * power >= least * (1 - 1e-9)) ?? 10);
}

function fedPosts(result: PlanResult, { posts }: ConditionResult) {
  const compared = comparedVolts(result.target.of);
  return posts.flatMap(({ strands }) => {
    const low = lowestHot(strands, compared);
    if (low === null || low.distanceM === null || low.status === 'switched off') return [];
    return [{ distanceM: low.distanceM, volts: compared(low) }];
  });
}

/** Lowest volts of each column; a column without a post takes its left neighbour's. */
function lowestByColumn(
  posts: readonly { readonly distanceM: number; readonly volts: number }[],
  longestM: number,
  width: number,
): number[] {
  const lows = new Array<number>(width).fill(Number.POSITIVE_INFINITY);
  for (const { distanceM, volts } of posts) {
    const column = Math.min(width - 1, Math.floor((distanceM / longestM) * width));
    lows[column] = Math.min(lows[column]!, volts);
  }
  const first = lows.find((volts) => Number.isFinite(volts))!;
  let last = first;
  return lows.map((volts) => {
    if (Number.isFinite(volts)) last = volts;
    return last;
  });
}
