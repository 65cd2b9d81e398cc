import type { Issue } from '../issue.js';
import { formatPlace } from '../quantity/format.js';
import { defaults } from './defaults.js';
import { entered } from './entered.js';
import type { Place } from './fields.js';
import { nearestPost, postPositionM, spanAt, spanCount } from './posts.js';
import type { Reporter } from './reporter.js';
import { growthOf } from './resolve-conditions.js';
import { resolveCable } from './resolve-energizer.js';
import type { ResolvedBuild, ResolvedFault, ResolvedPlan, ResolvedRun, ResolvedStretch } from './resolved.js';
import type { RowLookup } from './row-lookup.js';
import type { Plan } from './schema.js';

/** Most rods that one entry puts along a run. */
const mostRods = 100_000;

type Path = Issue['path'];
type Parts = Pick<ResolvedPlan, 'jumpers' | 'switches' | 'gates' | 'links' | 'strandRods' | 'stretches' | 'faults'>;

/** Resolves what hangs on the runs: jumpers, switches, gates, cables, rods, stretches and faults. */
export class PartsResolver {
  readonly #plan: Plan;
  readonly #book: RowLookup;
  readonly #report: Reporter;
  readonly #runs: ReadonlyMap<string, ResolvedRun>;
  readonly #builds: ReadonlyMap<string, ResolvedBuild>;

  constructor(
    plan: Plan,
    runs: readonly ResolvedRun[],
    builds: readonly ResolvedBuild[],
    book: RowLookup,
    report: Reporter,
  ) {
    this.#plan = plan;
    this.#book = book;
    this.#report = report;
    this.#runs = new Map(runs.map((run) => [run.id, run]));
    this.#builds = new Map(builds.map((build) => [build.id, build]));
  }

  resolve(): Parts {
    const plan = this.#plan;
    return {
      jumpers: plan.jumpers.map((jumper, i) => ({
        id: jumper.name ?? `jumper ${i + 1}`,
        run: jumper.run,
        post: this.#post(jumper.run, jumper.post, ['jumpers', i, 'post']),
        strands: [...jumper.strands],
        joint: this.#book.keep('joints', jumper.joint ?? defaults.jumper, ['jumpers', i, 'joint']),
      })),
      switches: plan.switches.map((item, i) => ({
        id: item.name ?? `switch ${i + 1}`,
        run: item.run,
        post: this.#span(item.run, item.span, ['switches', i, 'span']),
        joint: this.#book.keep('joints', item.joint ?? defaults.switch, ['switches', i, 'joint']),
        openIn: item.openIn === 'all' ? Object.keys(plan.conditions) : [...item.openIn],
      })),
      gates: plan.gates.map((_, i) => this.#gate(i)),
      links: plan.cables.map((link, i) => ({
        id: link.name ?? `cable ${i + 1}`,
        from: link.from,
        to: link.to,
        role: link.role,
        cable: resolveCable(link, ['cables', i], this.#book),
      })),
      strandRods: plan.groundedRods.map((_, i) => this.#strandRods(i)),
      stretches: plan.stretches.map((_, i) => this.#stretch(i)),
      faults: plan.faults.map((_, i) => this.#fault(i)),
    };
  }

  #gate(i: number): Parts['gates'][number] {
    const gate = this.#plan.gates[i]!;
    const path = ['gates', i];
    const post = this.#span(gate.run, gate.span, [...path, 'span']);
    const run = this.#runs.get(gate.run);
    const widthM =
      run === undefined || post >= spanCount(run) ? 0 : postPositionM(run, post + 1) - postPositionM(run, post);
    const length = gate.cable.length ?? widthM + defaults.gateCableSlackM;
    return {
      id: gate.name ?? `gate ${i + 1}`,
      run: gate.run,
      post,
      cable: resolveCable({ ...gate.cable, length }, [...path, 'cable'], this.#book),
      joint: this.#book.keep('joints', gate.joint ?? defaults.jumper, [...path, 'joint']),
      carriesGrounded: gate.carriesGrounded,
    };
  }

  #strandRods(i: number): Parts['strandRods'][number] {
    const rods = this.#plan.groundedRods[i]!;
    const path = ['groundedRods', i];
    const run = this.#runs.get(rods.run);
    if ((rods.every === undefined) === (rods.posts === undefined)) {
      const found = rods.every === undefined ? 'neither `every` nor `posts`' : 'both `every` and `posts`';
      this.#report.error('one-of', [...path, 'every'], found, 'one of them, such as `every: 1000 ft`');
    }
    const isTooMany = run !== undefined && rods.every !== undefined && run.lengthM / rods.every > mostRods;
    if (isTooMany) {
      const most = `at most ${mostRods.toLocaleString('en')} rods`;
      this.#report.error(
        'out-of-range',
        [...path, 'every'],
        `a rod every ${formatPlace(rods.every!, this.#plan.units)}`,
        most,
      );
    }
    const posts =
      rods.posts?.map((place, k) => this.#post(rods.run, place, [...path, 'posts', k])) ??
      (run === undefined || rods.every === undefined || isTooMany ? [0] : postsEvery(run, rods.every));
    return {
      id: rods.name ?? `rods ${i + 1}`,
      run: rods.run,
      strand: rods.strand,
      posts: [...new Set(posts)].sort((a, b) => a - b),
      lengthM: rods.length ?? defaults.rodLengthM,
      diameterM: rods.diameter ?? defaults.rodDiameterM,
    };
  }

  #stretch(i: number): ResolvedStretch {
    const stretch = this.#plan.stretches[i]!;
    const path = ['stretches', i];
    const row = (table: 'posts' | 'soils' | 'wires' | 'insulators', key: 'post' | 'soil' | 'wire' | 'insulator') => {
      const ref = stretch[key];
      return ref === undefined ? null : this.#book.keep(table, ref, [...path, key]);
    };
    return {
      id: stretch.name ?? `stretch ${i + 1}`,
      run: stretch.run,
      fromM: stretch.from ?? 0,
      toM: stretch.to ?? null,
      strands: stretch.strands === undefined ? null : [...stretch.strands],
      conditions: stretch.conditions === undefined ? null : [...stretch.conditions],
      set: {
        post: row('posts', 'post'),
        soil: row('soils', 'soil'),
        wire: row('wires', 'wire'),
        insulator: row('insulators', 'insulator'),
        insulatorState: stretch.insulatorState ?? null,
        fouledFraction: stretch.fouledFraction ?? null,
        growth: growthOf(stretch, path, this.#book, this.#report),
        growthWetness: stretch.growthWetness ?? null,
        leakSiemensPerMetre: stretch.leak === undefined ? null : entered(stretch.leak, 'S/m', [...path, 'leak']),
        postWetness: stretch.postWetness ?? null,
      },
    };
  }

  #fault(i: number): ResolvedFault {
    const fault = this.#plan.faults[i]!;
    const path = ['faults', i];
    if ((fault.post === undefined) === (fault.span === undefined)) {
      const found = fault.post === undefined ? 'neither `post` nor `span`' : 'both `post` and `span`';
      this.#report.error('one-of', [...path, 'post'], found, 'one of them, such as `post: 12`');
    }
    const kind = this.#book.keep('faults', fault.kind, [...path, 'kind']);
    const action = this.#book.kept('faults', kind)?.path;
    // A splice or a break said to be at a post is on the span that begins there, the last span at the last post.
    const on = fault.span === undefined && action !== 'series' ? 'post' : 'span';
    const run = this.#runs.get(fault.run);
    let post = 0;
    if (fault.span !== undefined) post = this.#span(fault.run, fault.span, [...path, 'span']);
    else if (fault.post !== undefined) post = this.#post(fault.run, fault.post, [...path, 'post']);
    if (action === 'series' && fault.span === undefined && run !== undefined && post === spanCount(run)) post--;
    const strands = this.#builds.get(run?.build ?? '')?.strands ?? [];
    const strand = fault.strand ?? strands.find((s) => s.role === 'hot')?.id ?? strands[0]?.id ?? '';
    const others = strands.filter((s) => s.id !== strand);
    const touched = others.find((s) => s.role === 'grounded') ?? others[0];
    return {
      id: fault.name ?? `fault ${i + 1}`,
      kind,
      run: fault.run,
      post,
      on,
      strand,
      otherStrand: fault.otherStrand ?? (action === 'strand to grounded' ? (touched?.id ?? null) : null),
      ohms: fault.resistance === undefined ? null : entered(fault.resistance, 'Ω', [...path, 'resistance']),
      gapVolts: fault.firesAt === undefined ? null : entered(fault.firesAt, 'V', [...path, 'firesAt']),
      conditions: fault.conditions === undefined ? null : [...fault.conditions],
    };
  }

  /** Number of a post; 0 where its run is unknown, which is reported elsewhere. */
  #post(runId: string, place: Place, path: Path): number {
    if ('post' in place) return place.post;
    const run = this.#runs.get(runId);
    return run === undefined || this.#isBeyond(run, place.atM, path) ? 0 : nearestPost(run, place.atM);
  }

  #span(runId: string, place: Place, path: Path): number {
    if ('post' in place) return place.post;
    const run = this.#runs.get(runId);
    return run === undefined || this.#isBeyond(run, place.atM, path) ? 0 : spanAt(run, place.atM);
  }

  #isBeyond(run: ResolvedRun, atM: number, path: Path): boolean {
    if (atM <= run.lengthM + 1e-6) return false;
    this.#report.error(
      'out-of-range',
      path,
      formatPlace(atM, this.#plan.units),
      `a place on the run "${run.id}", which is ${formatPlace(run.lengthM, this.#plan.units)} long`,
    );
    return true;
  }
}

/**
 * Posts of a run with a rod at least so often: as few as can be, spread evenly where that leaves no gap too long. A span
 * longer than said has a rod at either end.
 */
export function postsEvery(run: ResolvedRun, everyM: number): number[] {
  const isFarther = (from: number, to: number) =>
    postPositionM(run, to) - postPositionM(run, from) > everyM * (1 + 1e-9);
  const last = spanCount(run);
  // As far apart as the posts allow: no other choice needs fewer rods.
  const farthest = [0];
  for (let post = 1; post < last; post++) if (isFarther(farthest.at(-1)!, post + 1)) farthest.push(post);
  farthest.push(last);
  const gaps = farthest.length - 1;
  const even = farthest.map((_, k) => nearestPost(run, (k * run.lengthM) / gaps));
  return even.some((post, k) => k > 0 && isFarther(even[k - 1]!, post)) ? farthest : even;
}
