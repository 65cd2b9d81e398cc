import { openBy } from './elements.js';
import { groundSystem, strandRod } from './ground-recipes.js';
import type { Site } from './site.js';

/** The ground system, the lead-out, and the lead from the ground terminal to the grounded strands. */
export function addGround(site: Site): void {
  const { plan, layout, materials, list } = site;
  const { energizer } = plan;
  const home = layout.junctionOf.get(energizer.junction)!;
  list.add({
    kind: 'ground system',
    a: layout.groundTerminal,
    recipe: groundSystem(materials),
    cause: list.cause('ground', 'ground system'),
  });
  const lead = (from: number, to: number, cable: { wire: string; lengthM: number } | null, text: string) => {
    if (cable === null || to < 0 || from === to) return;
    list.add({
      kind: 'cable',
      a: from,
      b: to,
      recipe: materials.cable(cable.wire, cable.lengthM),
      cause: list.cause('wire', text),
      lengthM: cable.lengthM,
    });
  };
  lead(layout.fenceTerminal, layout.hotBus[home]!, energizer.leadOut, 'lead-out');
  lead(layout.groundTerminal, layout.groundedBus[home]!, energizer.groundLead, 'ground lead');
}

/** Jumpers, gates and cables from junction to junction. */
export function addJoints(site: Site): void {
  const { plan, layout, materials, list } = site;
  for (const jumper of plan.jumpers) {
    const r = layout.runOf.get(jumper.run)!;
    const run = layout.runs[r]!;
    const strands = jumper.strands.map((id) => run.strandOf.get(id)!);
    for (let n = 1; n < strands.length; n++) {
      const [a, b] = [run.nodes[strands[n - 1]!]![jumper.post]!, run.nodes[strands[n]!]![jumper.post]!];
      // At a tied end both strands are one node already.
      if (a === b) continue;
      list.add({
        kind: 'joint',
        a,
        b,
        recipe: materials.joint(jumper.joint),
        cause: list.cause('wire', `jumper (${jumper.joint})`),
        run: r,
        post: jumper.post,
        strand: strands[n]!,
      });
    }
  }
  addGates(site);
  for (const link of plan.links) {
    const bus = link.role === 'hot' ? layout.hotBus : layout.groundedBus;
    list.add({
      kind: 'cable',
      a: bus[layout.junctionOf.get(link.from)!]!,
      b: bus[layout.junctionOf.get(link.to)!]!,
      recipe: materials.cable(link.cable.wire, link.cable.lengthM),
      cause: list.cause('wire', link.id),
      lengthM: link.cable.lengthM,
    });
  }
}

/** On both sides of a gate the strands of a role are tied, and one cable joins the first of each side. */
function addGates(site: Site): void {
  const { plan, layout, materials, list, faults } = site;
  for (const gate of plan.gates) {
    const r = layout.runOf.get(gate.run)!;
    const run = layout.runs[r]!;
    for (const role of gate.carriesGrounded ? (['hot', 'grounded'] as const) : (['hot'] as const)) {
      const strands = run.strands.flatMap((strand, s) => (strand.role === role ? [s] : []));
      const first = strands[0];
      if (first === undefined) continue;
      for (const post of [gate.post, gate.post + 1]) {
        for (const s of strands.slice(1)) {
          const [a, b] = [run.nodes[first]![post]!, run.nodes[s]![post]!];
          if (a === b) continue;
          list.add({
            kind: 'joint',
            a,
            b,
            recipe: materials.joint(gate.joint),
            cause: list.cause('wire', `tie at ${gate.id}`),
            run: r,
            post,
            strand: s,
          });
        }
      }
      const switchedOff = role === 'hot' && faults.switchAt(r, gate.post)?.open === true;
      list.add({
        kind: 'cable',
        a: run.nodes[first]![gate.post]!,
        b: run.nodes[first]![gate.post + 1]!,
        recipe: materials.cable(gate.cable.wire, gate.cable.lengthM),
        cause: list.cause('wire', gate.id),
        run: r,
        post: gate.post,
        strand: first,
        lengthM: gate.cable.lengthM,
        open: switchedOff ? openBy.switch : openBy.nothing,
      });
    }
  }
}

/** Rods of the grounded strands along the way. */
export function addStrandRods(site: Site): void {
  const { plan, layout, materials, list, views } = site;
  for (const rods of plan.strandRods) {
    const r = layout.runOf.get(rods.run)!;
    const run = layout.runs[r]!;
    const strand = run.strandOf.get(rods.strand)!;
    for (const post of rods.posts) {
      list.add({
        kind: 'strand rod',
        a: run.nodes[strand]![post]!,
        recipe: strandRod(materials, rods.lengthM, rods.diameterM, views[r]!.soil(run.positionsM[post]!)),
        cause: list.cause('ground', 'rods of the grounded strand'),
        run: r,
        post,
        strand,
      });
    }
  }
}
