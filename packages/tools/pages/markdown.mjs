// What the generated pages have in common.

/** A table cell of Markdown. */
const cell = (text) => text.replaceAll('|', '\\|').replace(/\s+/g, ' ').trim();
const row = (cells) => `| ${cells.map(cell).join(' | ')} |`;

/** A table of Markdown; columns in `right` stand to the right. */
export const table = (heads, rows, right = []) =>
  [row(heads), `|${heads.map((head) => (right.includes(head) ? '---:' : '---')).join('|')}|`, ...rows.map(row)].join(
    '\n',
  );

/** Address of a heading within its page. */
export const anchor = (title) =>
  title
    .toLowerCase()
    .replace(/[^\p{L}\p{N} _-]/gu, '')
    .replaceAll(' ', '-');

/** `groundRods` as `ground rods`. */
export const words = (key) => key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** The first letter in upper case. */
export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** Said at the head of every page that a script writes. */
export const written = '<!-- Written by npm run docs:pages; do not edit. -->';
