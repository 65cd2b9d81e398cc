import { checkCells, checkRows, type SomeTables } from '@postvolt/tables';
import type { Reporter } from './reporter.js';
import type { ResolvedPlan, ResolvedRows } from './resolved.js';

type Carried = { readonly [T in keyof ResolvedRows]?: ResolvedRows[T] | undefined };

/** Reports what is wrong with the rows that a resolved plan carries, beyond their shape. */
export function checkCarried({ growthWetness, ...carried }: Carried, report: Reporter): void {
  const byTable = Object.entries(carried).map(([table, rows]) => [table, Object.entries(rows ?? {})] as const);
  const tables = Object.fromEntries(byTable.map(([table, rows]) => [table, rows.map(([, row]) => row)])) as SomeTables;
  const ids = new Map(byTable.map(([table, rows]) => [table, rows.map(([id]) => id)]));
  for (const { code, path, found, expected } of checkRows(growthWetness ? { ...tables, growthWetness } : tables)) {
    const [table, i, ...rest] = path;
    const id = ids.get(String(table))?.[Number(i)];
    report.error(`row-${code}`, id === undefined ? ['rows', ...path] : ['rows', table!, id, ...rest], found, expected);
  }
}

/** Reports what is wrong with the values that a resolved plan enters beside its rows. */
export function checkEntered({ energizer, stretches, faults }: Omit<ResolvedPlan, 'rows'>, report: Reporter): void {
  for (const { code, path, found, expected } of checkCells({ energizer, stretches, faults }))
    report.error(`value-${code}`, path, found, expected);
}
