import type { Issue } from '../issue.js';
import { formatPlace } from '../quantity/format.js';
import { spanCount } from './posts.js';
import type { Reporter } from './reporter.js';
import type { ResolvedBuild, ResolvedPlan, ResolvedRun } from './resolved.js';
import { suggestion } from './suggest.js';

type Path = Issue['path'];
type Named = { readonly id: string };

/** Checks that all that a plan names is there, once each, and that posts and places lie on their runs. */
export class ReferenceCheck {
  readonly #plan: ResolvedPlan;
  readonly #report: Reporter;
  readonly #known: Readonly<Record<'junction' | 'run' | 'build' | 'condition', ReadonlySet<string>>>;
  readonly #runs: ReadonlyMap<string, ResolvedRun>;
  readonly #builds: ReadonlyMap<string, ResolvedBuild>;

  constructor(plan: ResolvedPlan, report: Reporter) {
    this.#plan = plan;
    this.#report = report;
    const ids = (items: readonly Named[]) => new Set(items.map(({ id }) => id));
    this.#known = {
      junction: ids(plan.junctions),
      run: ids(plan.runs),
      build: ids(plan.builds),
      condition: ids(plan.conditions),
    };
    this.#runs = new Map(plan.runs.map((run) => [run.id, run]));
    this.#builds = new Map(plan.builds.map((build) => [build.id, build]));
  }

  check(): void {
    const { plan, name } = { plan: this.#plan, name: this.#name.bind(this) };
    this.#once();
    name('junction', plan.energizer.junction, ['energizer', 'junction']);
    for (const id of Object.keys(plan.energizer.derating)) name('condition', id, ['energizer', 'derating', id]);
    plan.runs.forEach((run, i) => {
      name('junction', run.from, ['runs', i, 'from']);
      name('junction', run.to, ['runs', i, 'to']);
      if (run.build !== '') name('build', run.build, ['runs', i, 'build']);
      if (run.from === run.to && spanCount(run) < 2) {
        this.#report.error(
          'short-loop',
          ['runs', i, 'to'],
          `a loop of one span from "${run.from}" to itself`,
          'another junction, or more posts',
        );
      }
    });
    plan.links.forEach((link, i) => {
      name('junction', link.from, ['links', i, 'from']);
      name('junction', link.to, ['links', i, 'to']);
      if (link.from === link.to)
        this.#report.error(
          'short-loop',
          ['links', i, 'to'],
          `a cable from "${link.from}" to itself`,
          'another junction',
        );
    });
    this.#parts();
  }

  #parts(): void {
    const plan = this.#plan;
    plan.jumpers.forEach((jumper, i) => {
      const run = this.#place(jumper.run, jumper.post, 'post', ['jumpers', i]);
      for (const [k, strand] of jumper.strands.entries()) this.#strand(run, strand, ['jumpers', i, 'strands', k]);
      this.#jumperRoles(run, jumper.strands, ['jumpers', i, 'strands']);
    });
    plan.switches.forEach((item, i) => {
      this.#place(item.run, item.post, 'span', ['switches', i]);
      for (const [k, id] of item.openIn.entries()) this.#name('condition', id, ['switches', i, 'openIn', k]);
    });
    plan.gates.forEach((gate, i) => {
      this.#place(gate.run, gate.post, 'span', ['gates', i]);
    });
    plan.strandRods.forEach((rods, i) => {
      const run = this.#run(rods.run, ['strandRods', i, 'run']);
      const strand = this.#strand(run, rods.strand, ['strandRods', i, 'strand']);
      if (strand?.role === 'hot') {
        this.#report.error(
          'wrong-role',
          ['strandRods', i, 'strand'],
          `the hot strand "${strand.id}"`,
          'a grounded strand',
        );
      }
      if (run !== undefined) {
        for (const [k, post] of rods.posts.entries()) this.#range(run, post, 'post', ['strandRods', i, 'posts', k]);
      }
    });
    plan.stretches.forEach((stretch, i) => {
      const run = this.#run(stretch.run, ['stretches', i, 'run']);
      for (const [k, id] of (stretch.strands ?? []).entries()) this.#strand(run, id, ['stretches', i, 'strands', k]);
      for (const [k, id] of (stretch.conditions ?? []).entries())
        this.#name('condition', id, ['stretches', i, 'conditions', k]);
      if (run !== undefined) this.#extent(run, stretch.fromM, stretch.toM, ['stretches', i]);
    });
    plan.faults.forEach((fault, i) => {
      const run = this.#place(fault.run, fault.post, fault.on, ['faults', i]);
      this.#strand(run, fault.strand, ['faults', i, 'strand']);
      if (fault.otherStrand !== null) this.#strand(run, fault.otherStrand, ['faults', i, 'otherStrand']);
      for (const [k, id] of (fault.conditions ?? []).entries())
        this.#name('condition', id, ['faults', i, 'conditions', k]);
      this.#action(i);
    });
  }

  #name(what: 'junction' | 'run' | 'build' | 'condition', id: string, path: Path): void {
    const known = this.#known[what];
    if (!known.has(id))
      this.#report.error(`unknown-${what}`, path, `"${id}"`, `the name of a ${what}`, () => suggestion(id, known));
  }

  #run(id: string, path: Path): ResolvedRun | undefined {
    this.#name('run', id, path);
    return this.#runs.get(id);
  }

  #strand(run: ResolvedRun | undefined, id: string, path: Path) {
    const strands = this.#builds.get(run?.build ?? '')?.strands;
    if (run === undefined || strands === undefined) return undefined;
    const strand = strands.find((s) => s.id === id);
    if (strand === undefined) {
      const known = strands.map((s) => s.id);
      this.#report.error('unknown-strand', path, `"${id}"`, `a strand of the build "${run.build}"`, () =>
        suggestion(id, known),
      );
    }
    return strand;
  }

  #place(runId: string, post: number, on: 'post' | 'span', path: Path): ResolvedRun | undefined {
    const run = this.#run(runId, [...path, 'run']);
    if (run !== undefined) this.#range(run, post, on, [...path, 'post']);
    return run;
  }

  #range(run: ResolvedRun, post: number, on: 'post' | 'span', path: Path): void {
    // How many posts a run has, its build says: one that is not known is an error of its own.
    if (!this.#builds.has(run.build)) return;
    const last = spanCount(run) - (on === 'span' ? 1 : 0);
    if (post > last)
      this.#report.error('out-of-range', path, `${on} ${post}`, `a ${on} of "${run.id}" from 0 to ${last}`);
  }

  #extent(run: ResolvedRun, fromM: number, toM: number | null, path: Path): void {
    const hair = 1e-6;
    const say = (metres: number) => formatPlace(metres, this.#plan.units);
    const on = `a place on the run "${run.id}", which is ${say(run.lengthM)} long`;
    if (fromM > run.lengthM + hair) this.#report.error('out-of-range', [...path, 'fromM'], say(fromM), on);
    if (toM !== null && toM > run.lengthM + hair) this.#report.error('out-of-range', [...path, 'toM'], say(toM), on);
    else if (toM !== null && toM <= fromM) {
      this.#report.error(
        'out-of-range',
        [...path, 'toM'],
        say(toM),
        `a place after the stretch's start at ${say(fromM)}`,
      );
    }
  }

  #jumperRoles(run: ResolvedRun | undefined, ids: readonly string[], path: Path): void {
    const strands = this.#builds.get(run?.build ?? '')?.strands.filter((s) => ids.includes(s.id)) ?? [];
    if (new Set(strands.map((s) => s.role)).size > 1) {
      this.#report.error(
        'jumper-shorts',
        path,
        'a jumper from a hot to a grounded strand',
        'strands of one role',
        'It would short the fence; a fault of two strands touching says so on purpose.',
      );
    }
    if (new Set(ids).size < ids.length) this.#report.error('repeated', path, 'one strand twice', 'each strand once');
  }

  #action(i: number): void {
    const fault = this.#plan.faults[i]!;
    const action = this.#plan.rows.faults[fault.kind]?.path;
    if (action === undefined) return;
    const atPost = action === 'insulator' || action === 'strand to post' || action === 'spark gap';
    const place = action === 'series' ? 'span' : atPost ? 'post' : null;
    if (place !== null && fault.on !== place) {
      this.#report.error('wrong-place', ['faults', i, 'post'], `"${fault.kind}" on a ${fault.on}`, `a ${place}`);
    }
    if (action !== 'strand to grounded') return;
    if (fault.otherStrand === null || fault.otherStrand === fault.strand) {
      this.#report.error('missing-key', ['faults', i, 'otherStrand'], 'no other strand', 'the strand that is touched');
    }
  }

  #once(): void {
    const plan = this.#plan;
    const lists = {
      junctions: plan.junctions,
      runs: plan.runs,
      builds: plan.builds,
      conditions: plan.conditions,
      jumpers: plan.jumpers,
      switches: plan.switches,
      gates: plan.gates,
      links: plan.links,
      strandRods: plan.strandRods,
      stretches: plan.stretches,
      faults: plan.faults,
    };
    for (const [key, items] of Object.entries(lists)) this.#unique(items, [key]);
    plan.builds.forEach((build, i) => {
      this.#unique(build.strands, ['builds', i, 'strands']);
    });
  }

  #unique(items: readonly Named[], path: Path): void {
    const seen = new Set<string>();
    items.forEach(({ id }, i) => {
      if (seen.has(id))
        this.#report.error('repeated', [...path, i], `the name "${id}" a second time`, 'each name once');
      seen.add(id);
    });
  }
}
