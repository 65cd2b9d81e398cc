import { openBy } from './elements.js';
import type { RunLayout } from './layout.js';
import type { Growth } from './local.js';
import type { Site } from './site.js';

/** The wire between posts, and what grows on it. */
export function addSpans(site: Site): void {
  site.layout.runs.forEach((run, r) => {
    addWire(site, run, r);
    run.strands.forEach((_, s) => {
      addGrowth(site, run, r, s);
    });
  });
}

function addWire(site: Site, run: RunLayout, r: number): void {
  const { materials, list, faults, views } = site;
  const hotCount = run.strands.filter((strand) => strand.role === 'hot').length;
  for (let k = 0; k < run.spans; k++) {
    const lengthM = run.positionsM[k + 1]! - run.positionsM[k]!;
    run.strands.forEach((strand, s) => {
      if (faults.gateAt(r, k)?.takes(strand.role)) return;
      const broken = faults.isBroken(r, k, s);
      const inSeries = faults.spliceAt(r, k, s).map((fault) => materials.faultParameter(fault, fault.ohms));
      const closing = strand.role === 'hot' ? faults.switchAt(r, k) : null;
      if (closing !== null) inSeries.push(materials.jointParameter(closing.joint));
      const wire = views[r]!.wire(s, run.positionsM[k]!);
      list.add({
        kind: 'span',
        a: run.nodes[s]![k]!,
        b: run.nodes[s]![k + 1]!,
        recipe: materials.span(wire, lengthM, strand.role === 'hot' ? hotCount : 0, inSeries),
        cause: list.causeOf('wire', [wire], () => wire),
        run: r,
        post: k,
        strand: s,
        lengthM,
        open: closing?.open === true ? openBy.switch : broken ? openBy.fault : openBy.nothing,
      });
    });
  }
}

/** Spreads growth pro rata over the spans and lumps half of each span's at either end. */
function addGrowth(site: Site, run: RunLayout, r: number, s: number): void {
  const { faults, views } = site;
  const view = views[r]!;
  const breaks = view.growthBreaksM();
  const pieces = breaks.slice(0, -1).map((fromM, n) => ({
    toM: breaks[n + 1]!,
    growth: view.growth(s, fromM),
    scope: `${run.run.id}${n === 0 && breaks.length === 2 ? '' : ` from ${Math.round(fromM)} m`}`,
  }));
  let piece = 0;
  // Metres of each piece on half the span before and half the span after a post.
  let pending = new Map<number, number>();
  for (let k = 0; k < run.spans; k++) {
    const [start, end] = [run.positionsM[k]!, run.positionsM[k + 1]!];
    const next = new Map<number, number>();
    const bare = faults.gateAt(r, k)?.takes(run.strands[s]!.role) === true;
    for (let at = start; at < end; ) {
      while (piece < pieces.length - 1 && pieces[piece]!.toM <= at) piece++;
      const to = piece === pieces.length - 1 ? end : Math.min(end, pieces[piece]!.toM);
      if (!bare && pieces[piece]!.growth !== null) {
        const half = (to - at) / 2;
        pending.set(piece, (pending.get(piece) ?? 0) + half);
        next.set(piece, (next.get(piece) ?? 0) + half);
      }
      at = to;
    }
    flush(site, run, r, s, k, pending, pieces);
    pending = next;
  }
  flush(site, run, r, s, run.spans, pending, pieces);
}

function flush(
  site: Site,
  run: RunLayout,
  r: number,
  s: number,
  i: number,
  lengths: Map<number, number>,
  pieces: readonly { growth: Growth | null; scope: string }[],
): void {
  for (const [n, lengthM] of lengths) {
    const { growth, scope } = pieces[n]!;
    if (growth === null) continue;
    // Lengths that differ in their last digits only would each make a recipe of its own.
    const rounded = Number(lengthM.toPrecision(12));
    site.list.add({
      kind: 'vegetation',
      a: run.nodes[s]![i]!,
      recipe: site.materials.growth(growth, rounded, scope),
      cause:
        growth.kind === 'entered'
          ? site.list.cause('entered leak', 'entered leak')
          : site.list.causeOf(
              'vegetation',
              [growth.vegetation, growth.wetness],
              () => `${growth.vegetation} growth, ${growth.wetness}`,
            ),
      run: r,
      post: i,
      strand: s,
    });
  }
}
