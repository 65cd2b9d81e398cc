import { fitsPost } from '@postvolt/tables';
import type { Issue } from '../issue.js';
import { defaults } from './defaults.js';
import { lineM } from './geodesic.js';
import { spanCount } from './posts.js';
import type { Reporter } from './reporter.js';
import { resolvePosts } from './resolve-posts.js';
import {
  mostPosts,
  type ResolvedBuild,
  type ResolvedJunction,
  type ResolvedRun,
  type ResolvedStrand,
} from './resolved.js';
import type { RowLookup } from './row-lookup.js';
import type { Plan } from './schema.js';
import { suggestion } from './suggest.js';

type Path = Issue['path'];
type BuildInput = Plan['builds'][string];
type RunInput = Plan['runs'][string];

/** Junctions in the plan's order. */
export function resolveJunctions(plan: Plan, book: RowLookup): ResolvedJunction[] {
  const bare = (id: string): ResolvedJunction => ({ id, name: id, at: null, through: false, post: null });
  if (Array.isArray(plan.junctions)) return plan.junctions.map(bare);
  return Object.entries(plan.junctions).map(([id, input]) => {
    if (input === null) return bare(id);
    const post = input.post === undefined ? null : book.keep('posts', input.post, ['junctions', id, 'post']);
    return { ...bare(id), at: input.at ?? null, through: input.through, post };
  });
}

/** A build with the spacing that its runs take where they name none. */
export interface SpacedBuild {
  readonly build: ResolvedBuild;
  readonly spacingM: number;
}

/** Builds in the plan's order. */
export const resolveBuilds = (plan: Plan, book: RowLookup, report: Reporter): SpacedBuild[] =>
  Object.entries(plan.builds).map(([id, input]) => resolveBuild(id, input, book, report));

function resolveBuild(id: string, input: BuildInput, book: RowLookup, report: Reporter): SpacedBuild {
  const path = ['builds', id];
  const post = book.keep('posts', input.post, [...path, 'post']);
  const row = book.kept('posts', post);
  const usual = row === undefined ? null : book.usualInsulator(row);
  const line = input.insulator === undefined ? null : book.keep('insulators', input.insulator, [...path, 'insulator']);
  const end =
    input.endInsulator === undefined ? null : book.keep('insulators', input.endInsulator, [...path, 'endInsulator']);
  const wire = input.wire === undefined ? null : book.keep('wires', input.wire, [...path, 'wire']);
  const strands = input.strands.map((strand, s): ResolvedStrand => {
    const place: Path = [...path, 'strands', s];
    const grounded = strand.role === 'grounded';
    const insulator = (own: typeof strand.insulator, key: string, ofBuild: string | null, fallback: string | null) => {
      if (own !== undefined) return book.keep('insulators', own, [...place, key]);
      if (grounded) return book.keep('insulators', defaults.groundedInsulator, [...place, key]);
      if (ofBuild !== null) return ofBuild;
      return fallback === null ? '' : book.keep('insulators', fallback, [...place, key]);
    };
    if (!grounded && row !== undefined && usual === null && line === null && strand.insulator === undefined) {
      report.error('missing-key', [...place, 'insulator'], 'nothing', `an insulator for "${row.id}"`);
    }
    if (strand.wire === undefined && wire === null) {
      report.error(
        'missing-key',
        [...place, 'wire'],
        'nothing',
        'a wire such as "12.5 ga high-tensile", here or for the whole build',
      );
    }
    const lineInsulator = insulator(strand.insulator, 'insulator', line, usual);
    const lineRow = book.kept('insulators', lineInsulator);
    if (row !== undefined && lineRow !== undefined && !fitsPost(lineRow, row)) {
      const where = strand.insulator === undefined && line !== null ? [...path, 'insulator'] : [...place, 'insulator'];
      const expected = `an insulator that fits; this one goes on ${lineRow.posts.join(', ')}`;
      report.warn('insulator-misfit', where, `"${lineRow.id}" on "${row.id}"`, expected);
    }
    return {
      id: strand.name ?? `strand ${s + 1}`,
      heightM: strand.height,
      wire: strand.wire === undefined ? (wire ?? '') : book.keep('wires', strand.wire, [...place, 'wire']),
      role: strand.role,
      insulator: lineInsulator,
      insulatorState: strand.insulatorState ?? input.insulatorState,
      insulatorsPerPost: strand.insulatorsPerPost,
      endInsulator: insulator(strand.endInsulator, 'endInsulator', end, defaults.endInsulator),
      endInsulatorState:
        strand.endInsulatorState ?? input.endInsulatorState ?? strand.insulatorState ?? input.insulatorState,
      endInsulatorsPerPost: strand.endInsulatorsPerPost,
    };
  });
  const spacingM = input.postSpacing ?? row?.usualSpacingM.typical ?? 1;
  return { build: { id, post, strands, ties: input.ties }, spacingM };
}

/** Runs in the plan's order. */
export function resolveRuns(
  plan: Plan,
  junctions: readonly ResolvedJunction[],
  builds: readonly SpacedBuild[],
  report: Reporter,
): ResolvedRun[] {
  const atOf = new Map(junctions.map((junction) => [junction.id, junction.at]));
  const buildOf = new Map(builds.map((build) => [build.build.id, build]));
  let posts = 0;
  return Object.entries(plan.runs).map(([id, input]): ResolvedRun => {
    const path = ['runs', id];
    const only = builds.length === 1 ? builds[0]!.build.id : null;
    const build = input.build ?? only;
    if (build === null) {
      const known = [...buildOf.keys()];
      report.error('missing-key', [...path, 'build'], 'nothing', 'the name of a build', suggestion('', known));
    }
    const lengthM = resolveLength(input, path, atOf, report);
    const run: ResolvedRun = {
      id,
      name: id,
      from: input.from,
      to: input.to,
      lengthM,
      line: input.line ?? null,
      posts: resolvePosts(input, lengthM, buildOf.get(build ?? '')?.spacingM ?? lengthM, {
        path,
        units: plan.units,
        report,
      }),
      build: build ?? '',
    };
    const before = posts;
    posts += spanCount(run);
    if (posts > mostPosts && before <= mostPosts) {
      const found = `${posts.toLocaleString('en')} posts up to this run`;
      report.error(
        'too-many-posts',
        path,
        found,
        `at most ${mostPosts.toLocaleString('en')} posts in a plan`,
        'Check the length and the post spacing.',
      );
    }
    return run;
  });
}

function resolveLength(
  input: RunInput,
  path: Path,
  atOf: ReadonlyMap<string, ResolvedJunction['at']>,
  report: Reporter,
): number {
  if (input.length !== undefined && input.line !== undefined) {
    report.error('one-of', [...path, 'line'], 'both `length` and `line`', 'one of them');
  }
  if (input.length !== undefined) return input.length;
  const [from, to] = [atOf.get(input.from) ?? null, atOf.get(input.to) ?? null];
  const line = input.line ?? (from === null || to === null ? null : [from, to]);
  if (line === null) {
    const expected = 'a length such as 1320 ft, or a `line` of [longitude, latitude] pairs';
    report.error('missing-key', [...path, 'length'], 'nothing', expected);
    return 1;
  }
  const lengthM = lineM(line);
  if (lengthM > 0) return lengthM;
  report.error(
    'out-of-range',
    [...path, input.line === undefined ? 'length' : 'line'],
    'a line of no length',
    'two places apart',
  );
  return 1;
}
