import type { TableName, Tables } from '@postvolt/tables';
import type { Issue } from '../issue.js';
import type { Reporter } from './reporter.js';
import type { ResolvedPlan, ResolvedRows } from './resolved.js';
import { lookUpRow } from './row-index.js';
import { reportUnknownRow } from './unknown-row.js';

type Path = Issue['path'];
type PartialRows = { [T in keyof ResolvedRows]?: ResolvedRows[T] | undefined };
type RowTable = Exclude<keyof ResolvedRows, 'growthWetness'>;

/** The rows that a plan carries, and from the tables those that it names but does not carry; unknown ones are reported. */
export function fillRows(
  plan: Omit<ResolvedPlan, 'rows'>,
  carried: PartialRows,
  tables: Tables,
  report: Reporter,
): ResolvedRows {
  const rows: Record<RowTable, Record<string, unknown>> = {
    wires: { ...carried.wires },
    insulators: { ...carried.insulators },
    films: { ...Object.fromEntries(tables.films.map((row) => [row.id, row])), ...carried.films },
    posts: { ...carried.posts },
    soils: { ...carried.soils },
    groundCovers: { ...carried.groundCovers },
    vegetation: { ...carried.vegetation },
    animals: { ...carried.animals },
    joints: { ...carried.joints },
    faults: { ...carried.faults },
  };
  const reported = new Set<string>();
  for (const [table, name, path] of rowsNamed(plan)) {
    if (Object.hasOwn(rows[table], name)) continue;
    const row = lookUpRow(tables, table, name);
    if (row !== undefined) rows[table][name] = row;
    else if (!reported.has(`${table} ${name}`)) {
      reported.add(`${table} ${name}`);
      reportUnknownRow(tables, table, name, path, report);
    }
  }
  return { ...rows, growthWetness: carried.growthWetness ?? tables.growthWetness } as ResolvedRows;
}

/** Every table row that a resolved plan names, with the place. */
export function* rowsNamed(plan: Omit<ResolvedPlan, 'rows'>): Generator<readonly [RowTable & TableName, string, Path]> {
  yield ['animals', plan.animal, ['animal']];
  yield ['soils', plan.soil, ['soil']];
  for (const lead of ['leadOut', 'groundLead'] as const) {
    const cable = plan.energizer[lead];
    if (cable !== null) yield ['wires', cable.wire, ['energizer', lead, 'wire']];
  }
  for (const [i, { post }] of plan.junctions.entries())
    if (post !== null) yield ['posts', post, ['junctions', i, 'post']];
  for (const [i, build] of plan.builds.entries()) {
    yield ['posts', build.post, ['builds', i, 'post']];
    for (const [s, strand] of build.strands.entries()) {
      const path = ['builds', i, 'strands', s];
      yield ['wires', strand.wire, [...path, 'wire']];
      yield ['insulators', strand.insulator, [...path, 'insulator']];
      yield ['insulators', strand.endInsulator, [...path, 'endInsulator']];
    }
  }
  for (const [i, { joint }] of plan.jumpers.entries()) yield ['joints', joint, ['jumpers', i, 'joint']];
  for (const [i, { joint }] of plan.switches.entries()) yield ['joints', joint, ['switches', i, 'joint']];
  for (const [i, { joint, cable }] of plan.gates.entries()) {
    yield ['joints', joint, ['gates', i, 'joint']];
    yield ['wires', cable.wire, ['gates', i, 'cable', 'wire']];
  }
  for (const [i, { cable }] of plan.links.entries()) yield ['wires', cable.wire, ['links', i, 'cable', 'wire']];
  for (const [i, { set }] of plan.stretches.entries()) {
    const path = ['stretches', i, 'set'];
    if (set.post !== null) yield ['posts', set.post, [...path, 'post']];
    if (set.soil !== null) yield ['soils', set.soil, [...path, 'soil']];
    if (set.wire !== null) yield ['wires', set.wire, [...path, 'wire']];
    if (set.insulator !== null) yield ['insulators', set.insulator, [...path, 'insulator']];
    if (set.growth !== null) yield ['vegetation', set.growth.vegetation, [...path, 'growth', 'vegetation']];
  }
  for (const [i, { kind }] of plan.faults.entries()) yield ['faults', kind, ['faults', i, 'kind']];
  for (const [i, condition] of plan.conditions.entries()) {
    yield ['vegetation', condition.growth.vegetation, ['conditions', i, 'growth', 'vegetation']];
    yield ['groundCovers', condition.groundCover, ['conditions', i, 'groundCover']];
  }
  for (const [m, conditions] of (plan.months?.months ?? []).entries()) {
    for (const [i, condition] of conditions.entries()) {
      const path = ['months', 'months', m, i];
      yield ['vegetation', condition.growth.vegetation, [...path, 'growth', 'vegetation']];
      yield ['groundCovers', condition.groundCover, [...path, 'groundCover']];
    }
  }
}
