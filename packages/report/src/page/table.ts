import { el, type Markup } from '../markup/element.js';

/** A column of a table in a report. */
export interface ReportColumn {
  readonly head: string;
  /** Numbers stand at the right. */
  readonly numeric?: boolean;
}

/** A column of numbers. */
export const numeric = (head: string): ReportColumn => ({ head, numeric: true });

/** A table of a report. The first cell of a row names it. All cells are plain text. */
export interface ReportTable {
  readonly caption: string;
  readonly columns: readonly ReportColumn[];
  readonly rows: readonly (readonly string[])[];
  /** Indices of rows to set apart, such as the weakest post. */
  readonly strong?: readonly number[];
  /** Under the table. */
  readonly note?: string;
}

/** A table with its caption; where it is wider than the page it scrolls within its frame. */
export function tableMarkup({ caption, columns, rows, strong = [], note }: ReportTable): Markup {
  const kind = (i: number) => (columns[i]?.numeric ? 'n' : null);
  return el(
    'div',
    { class: 'table' },
    el(
      'div',
      { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': caption },
      el(
        'table',
        {},
        el('caption', {}, caption),
        el(
          'thead',
          {},
          el(
            'tr',
            {},
            columns.map(({ head }, i) => el('th', { scope: 'col', class: kind(i) }, head)),
          ),
        ),
        el(
          'tbody',
          {},
          rows.map((cells, r) =>
            el(
              'tr',
              { class: strong.includes(r) ? 'strong' : null },
              cells.map((cell, i) =>
                i === 0 ? el('th', { scope: 'row', class: kind(i) }, cell) : el('td', { class: kind(i) }, cell),
              ),
            ),
          ),
        ),
      ),
    ),
    note === undefined ? null : el('p', { class: 'note' }, note),
  );
}
