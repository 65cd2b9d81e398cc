import { findRow, type Tables } from '@postvolt/tables';
import { spanCount } from '../../plan/posts.js';
import type { ResolvedBuild, ResolvedPlan, ResolvedRun } from '../../plan/resolved.js';
import { formatLength } from '../../quantity/format.js';
import type { PlaceAlong } from './move-energizer.js';
import { replaceRuns } from './replace-runs.js';
import type { ReachVariation } from './result.js';
import { respaceRun } from './stretch-run.js';

/** A change whose effect on the reach is wanted. */
export interface Variation {
  readonly kind: ReachVariation['kind'];
  readonly change: string;
  /** The changed plan and the energizer's place in it; null for the plan as it is. */
  readonly make: (() => { readonly plan: ResolvedPlan; readonly place: PlaceAlong | string | null }) | null;
}

/** What to vary; each list may be empty. */
export interface VariationChoice {
  /** Names of rows of the wires table for every strand. */
  readonly wires?: readonly string[];
  /** Hot strands more or fewer on each run. */
  readonly hotStrands?: readonly number[];
  /** Factors on the distance between posts. */
  readonly spacing?: readonly number[];
  /** Run along which the energizer moves, by quarters; without it every junction is tried, up to sixteen. */
  readonly energizerAlong?: string;
  /** False leaves the energizer where it stands. */
  readonly energizer?: boolean;
}

const usualWires = {
  imperial: ['16 ga high-tensile', '14 ga high-tensile', '12.5 ga high-tensile', '10 ga high-tensile'],
  metric: ['1.6 mm high-tensile', '2 mm high-tensile', '2.5 mm high-tensile', '2.8 mm high-tensile'],
} as const;
const mostPlaces = 16;
/** As many strands as a plan may have on a post. */
export const mostStrands = 12;

/** The changes of the table, each kind with the plan as it is among them. */
export function variationsOf(
  plan: ResolvedPlan,
  runs: ReadonlySet<string>,
  choice: VariationChoice,
  tables: Tables,
): Variation[] {
  return [
    ...wires(plan, runs, choice.wires ?? usualWires[plan.units], tables),
    ...strands(plan, runs, choice.hotStrands ?? [-1, 1, 2]),
    ...spacings(plan, runs, choice.spacing ?? [0.5, 1.5, 2]),
    ...(choice.energizer === false ? [] : places(plan, runs, choice.energizerAlong ?? null)),
  ];
}

const chosenRuns = (plan: ResolvedPlan, runs: ReadonlySet<string>) => plan.runs.filter(({ id }) => runs.has(id));
const buildsOf = (plan: ResolvedPlan, runs: ReadonlySet<string>): ResolvedBuild[] => {
  const used = new Set(chosenRuns(plan, runs).map(({ build }) => build));
  return plan.builds.filter(({ id }) => used.has(id));
};

/** The plan with the builds of the chosen runs changed, for those runs alone. */
export function withBuilds(
  plan: ResolvedPlan,
  runs: ReadonlySet<string>,
  change: (build: ResolvedBuild) => ResolvedBuild,
): ResolvedPlan {
  // Runs that were changed before and are not now keep the build that they got then.
  const taken = new Set(plan.builds.map(({ id }) => id));
  const freeId = (id: string): string => {
    let free = `${id} changed`;
    while (taken.has(free)) free = `${free} changed`;
    taken.add(free);
    return free;
  };
  const changed = buildsOf(plan, runs);
  const idOf = new Map(changed.map(({ id }) => [id, freeId(id)]));
  return {
    ...plan,
    builds: [...plan.builds, ...changed.map((build) => ({ ...change(build), id: idOf.get(build.id)! }))],
    runs: plan.runs.map((run) => (runs.has(run.id) ? { ...run, build: idOf.get(run.build)! } : run)),
  };
}

function wires(plan: ResolvedPlan, runs: ReadonlySet<string>, names: readonly string[], tables: Tables): Variation[] {
  if (names.length === 0) return [];
  const present = new Set(buildsOf(plan, runs).flatMap((build) => build.strands.map(({ wire }) => wire)));
  const all = names.map((name): Variation => {
    const row = plan.rows.wires[name] ?? findRow(tables, 'wires', name)!;
    if (present.size === 1 && present.has(row.id)) return { kind: 'wire', change: row.id, make: null };
    const make = () => {
      const changed = withBuilds(plan, runs, (build) => ({
        ...build,
        strands: build.strands.map((strand) => ({ ...strand, wire: row.id })),
      }));
      return {
        plan: { ...changed, rows: { ...plan.rows, wires: { ...plan.rows.wires, [row.id]: row } } },
        place: null,
      };
    };
    return { kind: 'wire', change: row.id, make };
  });
  const asIs: Variation = { kind: 'wire', change: [...present].join(' and '), make: null };
  return all.some(({ make }) => make === null) ? all : [asIs, ...all];
}

const hotOf = (build: ResolvedBuild) => build.strands.filter(({ role }) => role === 'hot');

function strands(plan: ResolvedPlan, runs: ReadonlySet<string>, changes: readonly number[]): Variation[] {
  if (changes.length === 0) return [];
  const builds = buildsOf(plan, runs);
  const counts = builds.map((build) => hotOf(build).length);
  const word = (more: number) => {
    const range = counts.map((count) => Math.max(1, count + more));
    const [least, most] = [Math.min(...range), Math.max(...range)];
    return `${least === most ? most : `${least} to ${most}`} hot strand${most === 1 ? '' : 's'}`;
  };
  const fits = (more: number) =>
    builds.every((build) => build.strands.length + more <= mostStrands) && Math.max(...counts) + more >= 1;
  return [0, ...changes]
    .filter((more, i) => fits(more) && (i === 0 || more !== 0))
    .sort((a, b) => a - b)
    .map((more) => ({
      kind: 'hot strands',
      change: word(more),
      make: more === 0 ? null : () => ({ plan: withHotStrands(plan, runs, more), place: null }),
    }));
}

/** Adds hot strands level with the highest, or takes away from the lowest up, and what hangs on those that go. */
export function withHotStrands(plan: ResolvedPlan, runs: ReadonlySet<string>, more: number): ResolvedPlan {
  const gone = new Map<string, ReadonlySet<string>>();
  const changed = withBuilds(plan, runs, (build) => {
    const hot = [...hotOf(build)].sort((a, b) => a.heightM - b.heightM);
    if (more > 0) {
      const top = hot.at(-1)!;
      const taken = new Set(build.strands.map(({ id }) => id));
      const free = Array.from({ length: more + taken.size }, (_, i) => `added hot strand ${i + 1}`);
      const added = free.filter((id) => !taken.has(id)).slice(0, more);
      return { ...build, strands: [...build.strands, ...added.map((id) => ({ ...top, id }))] };
    }
    const dropped = new Set(hot.slice(0, Math.min(-more, hot.length - 1)).map(({ id }) => id));
    for (const run of chosenRuns(plan, runs)) if (run.build === build.id) gone.set(run.id, dropped);
    return { ...build, strands: build.strands.filter(({ id }) => !dropped.has(id)) };
  });
  const stays = (run: string, strand: string) => gone.get(run)?.has(strand) !== true;
  return {
    ...changed,
    jumpers: changed.jumpers
      .map((jumper) => ({ ...jumper, strands: jumper.strands.filter((id) => stays(jumper.run, id)) }))
      .filter((jumper) => jumper.strands.length > 1),
    faults: changed.faults.filter(
      ({ run, strand, otherStrand }) => stays(run, strand) && (otherStrand === null || stays(run, otherStrand)),
    ),
    stretches: changed.stretches
      .map((stretch) => ({ ...stretch, strands: stretch.strands?.filter((id) => stays(stretch.run, id)) ?? null }))
      .filter(({ strands }) => strands === null || strands.length > 0),
  };
}

function spacings(plan: ResolvedPlan, runs: ReadonlySet<string>, factors: readonly number[]): Variation[] {
  if (factors.length === 0) return [];
  const chosen = chosenRuns(plan, runs);
  const spacing = chosen.map(spacingOf);
  const word = (factor: number) => {
    const [least, most] = [Math.min(...spacing), Math.max(...spacing)].map((metres) =>
      formatLength(metres * factor, plan.units),
    );
    return `posts every ${least === most ? most : `${least} to ${most}`}`;
  };
  return [1, ...factors]
    .filter((factor, i) => i === 0 || factor !== 1)
    .sort((a, b) => a - b)
    .map((factor) => ({
      kind: 'post spacing',
      change: word(factor),
      make:
        factor === 1
          ? null
          : () => ({
              plan: replaceRuns(plan, new Map(chosen.map((run) => [run.id, respaceRun(run, factor)]))),
              place: null,
            }),
    }));
}

const spacingOf = (run: ResolvedRun): number =>
  Number((run.posts.kind === 'equal' ? run.posts.spacingM : run.lengthM / spanCount(run)).toPrecision(9));

function places(plan: ResolvedPlan, runs: ReadonlySet<string>, along: string | null): Variation[] {
  const run = along ?? (runs.size === 1 ? [...runs][0]! : null);
  return run === null ? atJunctions(plan) : alongRun(plan, plan.runs.find(({ id }) => id === run)!);
}

const kind = 'energizer place';
const quarters = ['a quarter', 'half', 'three quarters'];

function alongRun(plan: ResolvedPlan, run: ResolvedRun): Variation[] {
  const end = (junction: string): Variation => ({
    kind,
    change: `at ${junction}`,
    make: plan.energizer.junction === junction ? null : () => ({ plan, place: junction }),
  });
  const between = quarters.map(
    (words, i): Variation => ({
      kind,
      change: `${words} of the way along ${run.id}`,
      make: () => ({ plan, place: { run: run.id, fraction: (i + 1) / 4 } }),
    }),
  );
  const ends = run.from === run.to ? [end(run.from)] : [end(run.from), end(run.to)];
  const all = [ends[0]!, ...between, ...ends.slice(1)];
  const isThere = ends.some(({ make }) => make === null);
  return isThere ? all : [end(plan.energizer.junction), ...all];
}

/** Every junction where a run ends; an even choice where there are many, the present one always. */
function atJunctions(plan: ResolvedPlan): Variation[] {
  const ends = new Set(plan.runs.flatMap(({ from, to }) => [from, to]));
  const all = plan.junctions.map(({ id }) => id).filter((id) => ends.has(id));
  const home = plan.energizer.junction;
  const others = all.filter((id) => id !== home);
  const kept = new Set(
    others.filter(
      (_, i) => Math.floor((i * mostPlaces) / others.length) !== Math.floor(((i - 1) * mostPlaces) / others.length),
    ),
  );
  return all
    .filter((id) => id === home || others.length <= mostPlaces || kept.has(id))
    .map((id) => ({ kind, change: `at ${id}`, make: id === home ? null : () => ({ plan, place: id }) }));
}
