import type { Reporter } from './reporter.js';
import type { ResolvedPlan, ResolvedStrand } from './resolved.js';
import { isTied } from './ties.js';

/** Sets that are merged when metal joins them. */
class Joined {
  readonly #parent: number[] = [];
  add(): number {
    this.#parent.push(this.#parent.length);
    return this.#parent.length - 1;
  }
  root(item: number): number {
    let at = item;
    while (this.#parent[at] !== at) {
      this.#parent[at] = this.#parent[this.#parent[at]!]!;
      at = this.#parent[at]!;
    }
    return at;
  }
  join(a: number, b: number): void {
    this.#parent[this.root(a)] = this.root(b);
  }
}

/** A strand from a gate (or the run's start) to the next one. */
interface Piece {
  readonly run: number;
  readonly strand: ResolvedStrand;
  readonly firstPost: number;
  readonly item: number;
}

/**
 * Checks that metal reaches every hot strand from the energizer, and every grounded strand from the ground terminal or
 * from rods of its own; all switches closed, faults left out. Expects a plan whose references hold.
 */
export function checkMetal(plan: ResolvedPlan, report: Reporter): void {
  const joined = new Joined();
  const buses = plan.junctions.map(() => ({ hot: joined.add(), grounded: joined.add() }));
  const junctionOf = new Map(plan.junctions.map((junction, i) => [junction.id, i]));
  const runOf = new Map(plan.runs.map((run, i) => [run.id, i]));
  const buildOf = new Map(plan.builds.map((build) => [build.id, build]));
  const bus = (junction: string, role: 'hot' | 'grounded') => buses[junctionOf.get(junction)!]![role];
  const gatesOf = plan.runs.map(() => [] as { post: number; carriesGrounded: boolean }[]);
  for (const gate of plan.gates) gatesOf[runOf.get(gate.run)!]!.push(gate);

  const pieces = plan.runs.map((run, r): Piece[] => {
    const build = buildOf.get(run.build)!;
    const gates = [...gatesOf[r]!].sort((a, b) => a.post - b.post);
    return build.strands.flatMap((strand) => {
      const cuts = strand.role === 'grounded' ? gates.filter((gate) => !gate.carriesGrounded) : [];
      const own = [0, ...cuts.map((gate) => gate.post + 1)].map(
        (firstPost): Piece => ({ run: r, strand, firstPost, item: joined.add() }),
      );
      if (isTied(build, strand, 'from')) joined.join(own[0]!.item, bus(run.from, strand.role));
      if (isTied(build, strand, 'to')) joined.join(own.at(-1)!.item, bus(run.to, strand.role));
      return own;
    });
  });
  const pieceAt = (run: number, strand: string, post: number) =>
    pieces[run]!.filter((piece) => piece.strand.id === strand && piece.firstPost <= post).at(-1)!;

  pieces.forEach((own, r) => {
    if (gatesOf[r]!.length === 0) return;
    const hot = own.filter((piece) => piece.strand.role === 'hot');
    for (const piece of hot) joined.join(piece.item, hot[0]!.item);
    for (const gate of gatesOf[r]!) {
      if (!gate.carriesGrounded) continue;
      const grounded = plan.builds
        .find((b) => b.id === plan.runs[r]!.build)!
        .strands.filter((s) => s.role === 'grounded');
      for (const strand of grounded)
        joined.join(pieceAt(r, strand.id, gate.post).item, pieceAt(r, grounded[0]!.id, gate.post).item);
    }
  });
  for (const jumper of plan.jumpers) {
    const run = runOf.get(jumper.run)!;
    const [first, ...rest] = jumper.strands.map((strand) => pieceAt(run, strand, jumper.post).item);
    for (const item of rest) joined.join(item, first!);
  }
  for (const link of plan.links) joined.join(bus(link.from, link.role), bus(link.to, link.role));

  const home = plan.energizer.junction;
  const fed = joined.root(bus(home, 'hot'));
  const earthed = new Set([joined.root(bus(home, 'grounded'))]);
  for (const rods of plan.strandRods) {
    for (const post of rods.posts) earthed.add(joined.root(pieceAt(runOf.get(rods.run)!, rods.strand, post).item));
  }
  if (!reportEnergizer(plan, report)) return;
  reportHot(plan, pieces, (piece) => joined.root(piece.item) === fed, report);
  reportGrounded(plan, pieces, (piece) => earthed.has(joined.root(piece.item)), report);
}

/** Reports an energizer and junctions that nothing meets; false where the energizer is one. */
function reportEnergizer(plan: ResolvedPlan, report: Reporter): boolean {
  const { junction } = plan.energizer;
  const hotBuilds = new Set(plan.builds.filter((b) => b.strands.some((s) => s.role === 'hot')).map((b) => b.id));
  const isMet =
    plan.runs.some((run) => hotBuilds.has(run.build) && (run.from === junction || run.to === junction)) ||
    plan.links.some((link) => link.role === 'hot' && (link.from === junction || link.to === junction));
  if (!isMet) {
    report.error(
      'energizer-not-connected',
      ['energizer', 'junction'],
      `no hot strand at "${junction}"`,
      'a junction where a run with a hot strand or a cable ends',
    );
  }
  const met = new Set([
    junction,
    ...plan.runs.flatMap((r) => [r.from, r.to]),
    ...plan.links.flatMap((l) => [l.from, l.to]),
  ]);
  plan.junctions.forEach(({ id }, i) => {
    if (!met.has(id))
      report.error('not-connected', ['junctions', i], `no run or cable ends at "${id}"`, 'a junction that is used');
  });
  return isMet;
}

function reportHot(
  plan: ResolvedPlan,
  pieces: readonly Piece[][],
  isFed: (piece: Piece) => boolean,
  report: Reporter,
): void {
  pieces.forEach((own, r) => {
    const run = plan.runs[r]!;
    const hot = own.filter((piece) => piece.strand.role === 'hot');
    const dead = hot.filter((piece) => !isFed(piece));
    if (dead.length === 0) return;
    if (dead.length === hot.length) {
      const ends = `"${run.from}" and "${run.to}"`;
      report.error(
        'not-fed',
        ['runs', r],
        `no metal from the energizer to "${run.id}"`,
        `a way through ${ends}`,
        'Join it by a run, a cable or the name of a junction that others share.',
      );
      return;
    }
    for (const { strand } of dead) {
      report.error(
        'not-fed',
        ['runs', r],
        `no metal from the energizer to the strand "${strand.id}"`,
        'a tie at an end of the run, or a jumper',
      );
    }
  });
}

function reportGrounded(
  plan: ResolvedPlan,
  pieces: readonly Piece[][],
  isEarthed: (piece: Piece) => boolean,
  report: Reporter,
): void {
  pieces.forEach((own, r) => {
    const run = plan.runs[r]!;
    const named = new Set<string>();
    for (const piece of own) {
      if (piece.strand.role === 'hot' || isEarthed(piece) || named.has(piece.strand.id)) continue;
      named.add(piece.strand.id);
      const beyond = piece.firstPost === 0 ? '' : ` beyond the gate before post ${piece.firstPost}`;
      report.error(
        'grounded-strand-loose',
        ['runs', r],
        `the grounded strand "${piece.strand.id}" of "${run.id}"${beyond} joined to nothing`,
        'a way by metal to the ground terminal, or rods of its own',
        'Add a grounded cable, a grounded strand between, or an entry of grounded rods.',
      );
    }
  });
}
