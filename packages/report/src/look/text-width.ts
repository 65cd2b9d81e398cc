/**
 * Advance widths of a plain sans serif face in thousandths of the type size, printable ASCII from the space on
 * (Adobe's metrics of Helvetica, which Arial and Liberation Sans share; from memory).
 */
const ascii = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
  722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
  556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
  260, 334, 584,
];

function advance(symbol: string): number {
  const code = symbol.codePointAt(0)!;
  if (code >= 32 && code < 127) return ascii[code - 32]!;
  if (code >= 0x300 && code < 0x370) return 0;
  // Ideographs, full-width forms and pictures stand in a square; other letters are about as wide as ours.
  return code >= 0x1100 ? 1000 : 600;
}

/** Estimated width of text in the figures' face at a type size, in the size's unit; bold runs some 7 % wider. */
export function textWidth(text: string, size: number, bold = false): number {
  let thousandths = 0;
  for (const symbol of text) thousandths += advance(symbol);
  return ((thousandths * size) / 1000) * (bold ? 1.07 : 1);
}

/** Text cut to a width, with an ellipsis where something is missing. */
export function cutText(text: string, width: number, size: number, bold = false): string {
  const line = text.replace(/\s+/gu, ' ').trim();
  if (textWidth(line, size, bold) <= width) return line;
  let short = '';
  for (const symbol of line) {
    if (textWidth(`${short}${symbol}…`, size, bold) > width) break;
    short += symbol;
  }
  return `${short.trimEnd()}…`;
}

/** Text broken into lines at spaces; a word longer than a line is cut. */
export function wrapText(text: string, width: number, size: number, mostLines = 3): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/u).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || textWidth(longer, size) <= width) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  if (line !== '') lines.push(line);
  if (lines.length > mostLines) lines.splice(mostLines - 1, lines.length, lines.slice(mostLines - 1).join(' '));
  return lines.map((text) => cutText(text, width, size));
}
