import type { NetworkDraft } from './draft.js';
import { kindCode, openBy } from './elements.js';
import { type RunLayout, spanLengthM } from './layout.js';
import type { Growth } from './local-conditions.js';
import { type InSeries, nothingInSeries } from './places.js';

/** The wire between posts, and what grows on it. */
export function addSpans(draft: NetworkDraft): void {
  draft.list.partIs('fence');
  draft.layout.runs.forEach((run, r) => {
    addWire(draft, run, r);
    run.strands.forEach((_, s) => {
      addGrowth(draft, run, r, s);
    });
  });
}

function addWire(draft: NetworkDraft, run: RunLayout, r: number): void {
  const { conductances, list, places, local } = draft;
  const hotCount = run.strands.filter((strand) => strand.role === 'hot').length;
  // Current of a run with a grounded strand comes back along it, of the others through the earth.
  const earthShare = hotCount === run.strands.length ? hotCount : 0;
  const causes = new Map<string, number>();
  // The next span is mostly like the last: its formula is then known without a look-up.
  const last = run.strands.map(() => ({ wire: '', lengthM: -1, formula: -1, cause: -1 }));
  for (let k = 0; k < run.spans; k++) {
    // A gate's cable stands in place of every strand's wire.
    if (places.gateAt(r, k) !== null) continue;
    const lengthM = spanLengthM(run, k);
    run.strands.forEach(({ role }, s) => {
      const series = places.inSeries(r, k, s, role);
      const wire = local[r]!.wire(s, run.positionsM[k]!);
      const known = last[s]!;
      if (series === nothingInSeries && known.wire === wire && known.lengthM === lengthM) {
        const { formula, cause } = known;
        const e = list.add(kindCode.span, run.nodes[s]![k]!, run.nodes[s]![k + 1]!, formula, cause, r, k, s);
        list.setMetal(e, lengthM);
        return;
      }
      let cause = causes.get(wire);
      if (cause === undefined) {
        cause = list.cause('wire', wire);
        causes.set(wire, cause);
      }
      const formula = conductances.span(wire, lengthM, role === 'hot' ? earthShare : 0, seriesOhms(draft, series));
      const e = list.add(kindCode.span, run.nodes[s]![k]!, run.nodes[s]![k + 1]!, formula, cause, r, k, s);
      list.setMetal(e, lengthM, seriesOpen(draft, series));
      noteSeries(draft, series, e);
      if (series === nothingInSeries) last[s] = { wire, lengthM, formula, cause };
    });
  }
}

/** Parameters in ohms of what stands in series with a wire, whether a switch is open or closed. */
export function seriesOhms({ plan, conductances }: NetworkDraft, { switches, faults }: InSeries): number[] {
  const joints = switches.map((number) => conductances.jointParameter(plan.switches[number]!.joint));
  const bad = faults.flatMap(({ fault, ohms }) =>
    ohms === null ? [] : [conductances.faultParameter(plan.faults[fault]!, ohms)],
  );
  return [...bad, ...joints];
}

/** Why a wire with something in series does not conduct, if it does not. */
export function seriesOpen({ places }: NetworkDraft, { switches, faults }: InSeries): number {
  if (switches.some((number) => places.isOpen(number))) return openBy.switch;
  return faults.some(({ ohms }) => ohms === null) ? openBy.fault : openBy.nothing;
}

/** Remembers the element that switches and faults in series stand in. */
export function noteSeries({ switchElements, faultElements }: NetworkDraft, { switches, faults }: InSeries, e: number) {
  for (const number of switches) switchElements[number]!.push(e);
  for (const { fault } of faults) faultElements[fault]!.push(e);
}

/** Growth of one kind on a part of a run. */
interface Piece {
  readonly toM: number;
  readonly growth: Growth | null;
  readonly scope: string;
  readonly cause: number;
}

/** Spreads growth pro rata over the spans and lumps half of each span's at either end. */
function addGrowth(draft: NetworkDraft, run: RunLayout, r: number, s: number): void {
  const { places, conductances, list } = draft;
  const pieces = growthPieces(draft, run, r, s);
  // Metres of each piece on the half span before a post, and on the half span after it.
  let before = new Float64Array(pieces.length);
  let after = new Float64Array(pieces.length);
  let piece = 0;
  let known = { piece: -1, lengthM: -1, formula: -1 };
  for (let i = 0; i <= run.spans; i++) {
    const first = piece;
    if (i < run.spans) {
      const [start, end] = [run.positionsM[i]!, run.positionsM[i + 1]!];
      const bare = places.gateAt(r, i) !== null;
      const spanM = spanLengthM(run, i);
      for (let at = start; at < end; ) {
        while (piece < pieces.length - 1 && pieces[piece]!.toM <= at) piece++;
        const to = piece === pieces.length - 1 ? end : Math.min(end, pieces[piece]!.toM);
        if (!bare) after[piece]! += (at === start && to === end ? spanM : to - at) / 2;
        at = to;
      }
    }
    // The half span before began in an earlier piece at most one span back.
    for (let p = spanStart(pieces, run, i, first); p <= piece; p++) {
      const lengthM = before[p]! + after[p]!;
      const { growth, scope, cause } = pieces[p]!;
      if (growth === null || lengthM === 0) continue;
      // Lengths that differ by rounding alone would each make a formula of its own.
      const rounded = Math.round(lengthM * 1e11) / 1e11;
      if (known.piece !== p || known.lengthM !== rounded)
        known = { piece: p, lengthM: rounded, formula: conductances.growth(growth, rounded, scope) };
      const { formula } = known;
      list.add(kindCode.vegetation, run.nodes[s]![i]!, -1, formula, cause, r, i, s);
    }
    const done = before;
    before = after;
    after = done.fill(0);
  }
}

/** First piece that reaches into the span before a post. */
function spanStart(pieces: readonly Piece[], run: RunLayout, i: number, piece: number): number {
  const startM = run.positionsM[Math.max(0, i - 1)]!;
  let first = piece;
  while (first > 0 && pieces[first - 1]!.toM > startM) first--;
  return first;
}

function growthPieces({ local, list }: NetworkDraft, run: RunLayout, r: number, s: number): Piece[] {
  const breaks = local[r]!.growthBreaksM();
  return breaks.slice(0, -1).map((fromM, n) => {
    const growth = local[r]!.growth(s, fromM);
    const whole = n === 0 && breaks.length === 2;
    return {
      toM: breaks[n + 1]!,
      growth,
      scope: `${run.run.id}${whole ? '' : ` from ${Math.round(fromM)} m`}`,
      cause:
        growth === null
          ? -1
          : growth.kind === 'entered'
            ? list.cause('entered leak', 'entered leak')
            : list.cause('vegetation', `${growth.vegetation} growth, ${growth.wetness}`),
    };
  });
}
