import stringWidth from 'string-width';

/** Columns that a text fills in a terminal; most text is plain ASCII, which needs no look at its letters. */
export const widthOf = (text: string): number => (/^[ -~]*$/.test(text) ? text.length : stringWidth(text));

/** Columns that text may fill: 80, or fewer in a narrow terminal. */
export const textWidth = (columns = process.stdout.columns): number => Math.max(40, Math.min(80, columns ?? 80));

/** Text of a plan without control characters, which could move the cursor or hide what follows; ends of line become spaces. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what it removes
export const plain = (text: string): string => text.replace(/[\u0000-\u001f\u007f-\u009f]+/g, ' ');

/** Breaks text at spaces into lines no wider than `width`; a longer word stands alone. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of plain(text).split(' ')) {
    if (word === '') continue;
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && widthOf(longer) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === '' ? lines : [...lines, line];
}

/** Wrapped text behind a first-line lead such as `  - `; later lines are indented as far. */
export function hang(lead: string, text: string, width: number): string {
  const indent = ' '.repeat(widthOf(lead));
  return wrap(text, width - indent.length)
    .map((line, i) => (i === 0 ? lead : indent) + line)
    .join('\n');
}

/** Cut to `width` columns, with an ellipsis where something is missing. */
export function cut(text: string, width: number): string {
  if (widthOf(text) <= width) return text;
  let short = '';
  for (const { segment } of new Intl.Segmenter().segment(text)) {
    if (widthOf(short + segment) > width - 1) break;
    short += segment;
  }
  return `${short}…`;
}

/** Padded with spaces to `width` columns. */
export function pad(text: string, width: number, align: 'left' | 'right' = 'left'): string {
  const spaces = ' '.repeat(Math.max(0, width - widthOf(text)));
  return align === 'left' ? text + spaces : spaces + text;
}
