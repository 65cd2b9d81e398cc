import {
  findRow,
  fitsPost,
  type InsulatorRow,
  type InsulatorState,
  rowKey,
  type TableName,
  type Tables,
} from '@postvolt/tables';
import { spanCount } from '../../plan/posts.js';
import type { ResolvedBuild, ResolvedPlan, ResolvedStrand, ResolvedStretch } from '../../plan/resolved.js';
import { nearest } from '../../plan/suggest.js';
import { replaceRuns } from '../reach/replace-runs.js';
import { respaceRun } from '../reach/stretch-run.js';
import { mostStrands, withBuilds, withHotStrands } from '../reach/variations.js';
import type { PlanChange } from './change.js';
import { refuse } from './refuse.js';

type RowTable = 'wires' | 'insulators' | 'posts' | 'vegetation';

/** A plan with some changes made, one after another. Throws a PlanError for a row, run or number that does not fit. */
export function applyChanges(plan: ResolvedPlan, changes: readonly PlanChange[], tables: Tables): ResolvedPlan {
  return changes.reduce((changed, change) => usedBuilds(applyChange(changed, change, tables)), plan);
}

/** Without the builds that no run has any more; of two with one name the later holds. */
function usedBuilds(plan: ResolvedPlan): ResolvedPlan {
  const used = new Set(plan.runs.map(({ build }) => build));
  return {
    ...plan,
    builds: [...new Map(plan.builds.map((build) => [build.id, build])).values()].filter(({ id }) => used.has(id)),
  };
}

function applyChange(plan: ResolvedPlan, change: PlanChange, tables: Tables): ResolvedPlan {
  const runs = runsOf(plan, 'run' in change ? change.run : undefined);
  switch (change.what) {
    case 'insulator':
    case 'end insulator':
      return withInsulator(plan, change.what, keep(plan, 'insulators', change.row, tables), change.state ?? null, runs);
    case 'insulator state':
      return withState(plan, change.state, runs);
    case 'wire': {
      const { rows, row } = keep(plan, 'wires', change.row, tables);
      const changed = withBuilds({ ...plan, rows }, runs, (build) => ({
        ...build,
        strands: build.strands.map((strand) => ({ ...strand, wire: row.id })),
      }));
      return withStretches(changed, runs, (set) => ({ ...set, wire: null }));
    }
    case 'post': {
      const { rows, row } = keep(plan, 'posts', change.row, tables);
      const changed = withBuilds({ ...plan, rows }, runs, (build) => ({ ...build, post: row.id }));
      return withStretches(changed, runs, (set) => ({ ...set, post: null }));
    }
    case 'spacing':
      return replaceRuns(
        plan,
        new Map(
          plan.runs
            .filter(({ id }) => runs.has(id))
            .map((run) => {
              const present = run.posts.kind === 'equal' ? run.posts.spacingM : run.lengthM / spanCount(run);
              return [run.id, respaceRun(run, change.metres / present)];
            }),
        ),
      );
    case 'hot strands':
      return moreStrands(plan, change.more, runs);
    case 'growth':
      return withGrowth(plan, change.atMost, runs, tables);
    case 'rods':
      return withRods(plan, change);
    case 'energizer': {
      const row = findRow(tables, 'energizers', change.row) ?? unknownRow(tables, 'energizers', change.row);
      const own = { joules: null, pulseWidthS: null, pulsesPerSecond: null };
      return { ...plan, energizer: { ...plan.energizer, ...own, row: row.id, loads: [...row.loads] } };
    }
    case 'mend':
      return { ...plan, faults: plan.faults.filter(({ run }) => !runs.has(run)) };
  }
}

function runsOf(plan: ResolvedPlan, run: string | undefined): ReadonlySet<string> {
  const all = plan.runs.map(({ id }) => id);
  if (run === undefined) return new Set(all);
  if (all.includes(run)) return new Set([run]);
  const near = nearest(run, all);
  return refuse(
    ['run'],
    `"${run}"`,
    'a run of the plan',
    near === null ? '' : `Did you mean "${near}"?`,
    'unknown-name',
  );
}

function unknownRow(tables: Tables, table: TableName, name: string): never {
  const near = nearest(
    name,
    tables[table].flatMap((row) => [row.id, ...row.aliases]),
  );
  const hint = near === null ? '' : `Did you mean "${near}"?`;
  return refuse([table], `"${name}"`, `a row of the table of ${table}`, hint, 'unknown-row');
}

/** The row of a name, of the plan's own first, and the plan's rows with it among them. */
function keep<T extends RowTable>(
  plan: ResolvedPlan,
  table: T,
  name: string,
  tables: Tables,
): { row: ResolvedPlan['rows'][T][string]; rows: ResolvedPlan['rows'] } {
  type Row = ResolvedPlan['rows'][T][string];
  const isNamed = ({ id, aliases }: { readonly id: string; readonly aliases: readonly string[] }) =>
    [id, ...aliases].some((own) => rowKey(own) === rowKey(name));
  const rowsOf = plan.rows[table];
  const own = Object.hasOwn(rowsOf, name) ? rowsOf[name] : Object.values(rowsOf).find(isNamed);
  const row = (own ?? findRow(tables, table, name) ?? unknownRow(tables, table, name)) as Row;
  return { row, rows: { ...plan.rows, [table]: { ...plan.rows[table], [(row as { id: string }).id]: row } } };
}

const withStretches = (
  plan: ResolvedPlan,
  runs: ReadonlySet<string>,
  change: (set: ResolvedStretch['set'], stretch: ResolvedStretch) => ResolvedStretch['set'],
): ResolvedPlan => ({
  ...plan,
  stretches: plan.stretches.map((s) => (runs.has(s.run) ? { ...s, set: change(s.set, s) } : s)),
});

/** Puts an insulator wherever it goes on the posts, new unless a state is said; birds and salt go on fouling where they did. */
function withInsulator(
  plan: ResolvedPlan,
  what: 'insulator' | 'end insulator',
  { row, rows }: { readonly row: InsulatorRow; readonly rows: ResolvedPlan['rows'] },
  state: InsulatorState | null,
  runs: ReadonlySet<string>,
): ResolvedPlan {
  const [wrong, right] = what === 'insulator' ? ['end', 'line posts'] : ['line', 'ends'];
  if (row.place === wrong || row.material === 'metal') refuse([what], `"${row.id}"`, `an insulator for ${right}`);
  let placed = false;
  const change = (build: ResolvedBuild): ResolvedBuild => {
    if (!fitsPost(row, plan.rows.posts[build.post]!)) return build;
    placed = true;
    const stateOf = (present: InsulatorState) => state ?? (present === 'salt' ? 'salt' : 'new');
    const own = (strand: ResolvedStrand): Partial<ResolvedStrand> =>
      what === 'insulator'
        ? { insulator: row.id, insulatorState: stateOf(strand.insulatorState) }
        : { endInsulator: row.id, endInsulatorState: stateOf(strand.endInsulatorState) };
    return {
      ...build,
      strands: build.strands.map((strand) => (strand.role === 'hot' ? { ...strand, ...own(strand) } : strand)),
    };
  };
  const changed = withBuilds({ ...plan, rows }, runs, change);
  if (!placed) refuse([what], `"${row.id}"`, 'an insulator that goes on the posts of these runs');
  if (what === 'end insulator') return changed;
  const mended = (state ?? 'new') === 'new' ? withoutInsulatorFaults(changed, runs) : changed;
  return withStretches(mended, runs, (set) => ({
    ...set,
    insulator: null,
    insulatorState: state === null && set.insulatorState === 'salt' ? 'salt' : null,
  }));
}

const withoutInsulatorFaults = (plan: ResolvedPlan, runs: ReadonlySet<string>): ResolvedPlan => ({
  ...plan,
  faults: plan.faults.filter((fault) => !runs.has(fault.run) || plan.rows.faults[fault.kind]!.path !== 'insulator'),
});

/** The insulators that are there in another state, on hot strands; those in salt air may be left as they are. */
export function withState(
  plan: ResolvedPlan,
  state: InsulatorState,
  runs: ReadonlySet<string>,
  keepSalt = false,
): ResolvedPlan {
  const stays = (present: InsulatorState | null) => keepSalt && present === 'salt';
  const changed = withBuilds(plan, runs, (build) => ({
    ...build,
    strands: build.strands.map((strand) =>
      strand.role === 'grounded'
        ? strand
        : {
            ...strand,
            insulatorState: stays(strand.insulatorState) ? strand.insulatorState : state,
            endInsulatorState: stays(strand.endInsulatorState) ? strand.endInsulatorState : state,
          },
    ),
  }));
  return withStretches(changed, runs, (set) => ({
    ...set,
    insulatorState: stays(set.insulatorState) ? set.insulatorState : null,
  }));
}

function moreStrands(plan: ResolvedPlan, more: number, runs: ReadonlySet<string>): ResolvedPlan {
  for (const { build: id } of plan.runs.filter((run) => runs.has(run.id))) {
    const { strands } = plan.builds.find((build) => build.id === id)!;
    const hot = strands.filter(({ role }) => role === 'hot').length;
    if (strands.length + more > mostStrands || hot + more < 1)
      refuse(['strands'], `${hot + more} hot strands in ${id}`, `from 1 hot strand to ${mostStrands} strands in all`);
  }
  return withHotStrands(plan, runs, more);
}

/** Growth of the chosen runs held down to a row of the vegetation table, entered leaks with it. */
function withGrowth(plan: ResolvedPlan, atMost: string, runs: ReadonlySet<string>, tables: Tables): ResolvedPlan {
  const { row, rows } = keep(plan, 'vegetation', atMost, tables);
  const most = row.wetSiemensPerMetre.typical;
  const kept = { vegetation: row.id, heightM: most > 0 ? row.usualHeightM.typical : 0 };
  const isMore = ({ vegetation }: { readonly vegetation: string }) =>
    rows.vegetation[vegetation]!.wetSiemensPerMetre.typical > most;
  const held = withStretches({ ...plan, rows }, runs, (set) => ({
    ...set,
    growth: set.growth !== null && isMore(set.growth) ? kept : set.growth,
    ...(set.leakSiemensPerMetre !== null && set.leakSiemensPerMetre.typical > most
      ? { leakSiemensPerMetre: null, growth: kept }
      : {}),
  }));
  if (runs.size === plan.runs.length) {
    return {
      ...held,
      conditions: plan.conditions.map((condition) =>
        isMore(condition.growth) ? { ...condition, growth: kept } : condition,
      ),
    };
  }
  const conditions = plan.conditions.filter(({ growth }) => isMore(growth)).map(({ id }) => id);
  if (conditions.length === 0) return held;
  const nothing = { post: null, soil: null, wire: null, insulator: null, insulatorState: null, fouledFraction: null };
  // A stretch over the whole run that says as little already would win over another before it.
  const isSaid = (run: string) =>
    held.stretches.some(
      (s) =>
        s.run === run &&
        s.fromM === 0 &&
        s.toM === null &&
        s.strands === null &&
        s.set.growth !== null &&
        conditions.every((id) => s.conditions?.includes(id) ?? true),
    );
  const first = [...runs]
    .filter((run) => !isSaid(run))
    .map(
      (run): ResolvedStretch => ({
        id: freeName(`growth held down on ${run}`, plan.stretches),
        run,
        fromM: 0,
        toM: null,
        strands: null,
        conditions,
        set: { ...nothing, growth: kept, growthWetness: null, leakSiemensPerMetre: null, postWetness: null },
      }),
    );
  // Earlier stretches yield to later ones: what a stretch says of its own growth still holds.
  return { ...held, stretches: [...first, ...held.stretches] };
}

/** A name that no part has yet. */
function freeName(name: string, parts: readonly { readonly id: string }[]): string {
  const taken = new Set(parts.map(({ id }) => id));
  if (!taken.has(name)) return name;
  let n = 2;
  while (taken.has(`${name} ${n}`)) n++;
  return `${name} ${n}`;
}

function withRods(plan: ResolvedPlan, change: PlanChange & { readonly what: 'rods' }): ResolvedPlan {
  const { ground } = plan.energizer;
  if (ground.kind !== 'rods') return refuse(['rods'], 'a measured ground system', 'a plan with `groundRods`');
  const count = 'count' in change ? change.count : ground.count + change.more;
  if (!(Number.isInteger(count) && count >= 1 && count <= 500)) refuse(['rods'], `${count} rods`, 'from 1 to 500 rods');
  return { ...plan, energizer: { ...plan.energizer, ground: { ...ground, count } } };
}
