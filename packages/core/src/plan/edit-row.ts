import { checkRows, type Estimate, type SomeTables } from '@postvolt/tables';
import { type Issue, wordPath } from '../issue.js';
import type { RangedValue } from '../quantity/ranged.js';
import { entered } from './entered.js';
import type { Reporter } from './reporter.js';
import { type CellField, type EditableTable, rowFields } from './row-fields.js';

type Path = Issue['path'];
/** Any row of any table. */
export type AnyRow = { readonly id: string };

const isMap = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;

/**
 * A copy of a row with the values of an edit in place of its own; the rest of the row is shared.
 * Null where the edit does not fit, which is reported.
 */
export function editRow(
  table: EditableTable,
  base: AnyRow,
  edit: Readonly<Record<string, unknown>>,
  heading: { readonly id: string; readonly aliases: readonly string[]; readonly about?: string },
  path: Path,
  report: Reporter,
): AnyRow | null {
  const row: Record<string, unknown> = { ...base, ...heading };
  if (table === 'posts') row['fitsAs'] = row['fitsAs'] ?? base.id;
  const fields: Readonly<Record<string, CellField>> = rowFields[table];
  if (table === 'soils' && edit['resistivity'] !== undefined) scaleSoil(row, edit, path);
  for (const [key, field] of Object.entries(fields)) {
    const value = edit[key] as RangedValue | undefined;
    if (value === undefined) continue;
    let outer = row;
    for (const step of field.cell.slice(0, -1)) {
      const inner = outer[step];
      if (!isMap(inner)) {
        report.error('no-such-value', [...path, key], `a value for ${key}`, `a row that has one; "${base.id}" has not`);
        return null;
      }
      outer = outer[step] = { ...inner };
    }
    outer[field.cell.at(-1)!] = entered(value, field.symbol, [...path, key]);
  }
  const edited = { [table]: [row] } as unknown as SomeTables;
  for (const issue of checkRows(edited)) {
    // Past the table's name and the row's number.
    const cell = issue.path.slice(2);
    const key = Object.keys(fields).find((name) => fields[name]!.cell.every((step, i) => step === cell[i]));
    report.error(`row-${issue.code}`, key === undefined ? path : [...path, key], issue.found, issue.expected);
    return null;
  }
  return row as unknown as AnyRow;
}

const scaled = (cell: Estimate, factor: number, path: Path): Estimate => ({
  ...cell,
  low: cell.low * factor,
  typical: cell.typical * factor,
  high: cell.high * factor,
  basis: 'derived',
  source: `${cell.source}; scaled to the resistivity entered at ${wordPath(path)}`,
});

/** Soil whose deep resistivity was measured in one state: the other states and the topsoil follow in proportion. */
function scaleSoil(row: Record<string, unknown>, edit: Readonly<Record<string, unknown>>, path: Path): void {
  const place = [...path, 'resistivity'];
  const measured = edit['resistivity'] as RangedValue;
  const state = (edit['measuredIn'] as string | undefined) ?? 'moist';
  const states = row['states'] as Record<string, { topsoilOhmM: Estimate; deepOhmM: Estimate }>;
  const factor = measured.typical / states[state]!.deepOhmM.typical;
  row['states'] = Object.fromEntries(
    Object.entries(states).map(([name, { topsoilOhmM, deepOhmM }]) => [
      name,
      {
        topsoilOhmM: scaled(topsoilOhmM, factor, place),
        deepOhmM: name === state ? entered(measured, 'Ω·m', place) : scaled(deepOhmM, factor, place),
      },
    ]),
  );
}
