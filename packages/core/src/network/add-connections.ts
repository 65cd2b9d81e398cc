import { noteSeries, seriesOhms, seriesOpen } from './add-spans.js';
import type { NetworkDraft } from './draft.js';
import { kindCode } from './elements.js';

/** Jumpers, gates, cables from junction to junction, and the rods of grounded strands. */
export function addConnections(draft: NetworkDraft): void {
  addJumpers(draft);
  addGates(draft);
  addLinks(draft);
  addStrandRods(draft);
}

/** The ground system, the lead-out, and the lead from the ground terminal to the grounded strands. */
export function addGround({ plan, layout, conductances, list }: NetworkDraft): void {
  const { energizer } = plan;
  const home = layout.junctionOf.get(energizer.junction)!;
  list.partIs('ground');
  const cause = list.cause('ground', 'ground system');
  list.add(kindCode['ground system'], layout.groundTerminal, -1, conductances.groundSystem(), cause);
  const lead = (
    part: 'lead-out' | 'ground lead',
    from: number,
    to: number,
    cable: { wire: string; lengthM: number } | null,
  ) => {
    if (cable === null || to < 0 || from === to) return;
    list.partIs(part);
    const formula = conductances.cable(cable.wire, cable.lengthM);
    list.setMetal(list.add(kindCode.cable, from, to, formula, list.cause('wire', part)), cable.lengthM);
  };
  lead('lead-out', layout.fenceTerminal, layout.hotBus[home]!, energizer.leadOut);
  lead('ground lead', layout.groundTerminal, layout.groundedBus[home]!, energizer.groundLead);
}

function addJumpers({ plan, layout, conductances, list }: NetworkDraft): void {
  plan.jumpers.forEach((jumper, number) => {
    const r = layout.runOf.get(jumper.run)!;
    const run = layout.runs[r]!;
    const strands = jumper.strands.map((id) => run.strandOf.get(id)!);
    const cause = list.cause('wire', `jumper (${jumper.joint})`);
    list.partIs('jumper', number);
    for (let n = 1; n < strands.length; n++) {
      const [a, b] = [run.nodes[strands[n - 1]!]![jumper.post]!, run.nodes[strands[n]!]![jumper.post]!];
      // At a tied end both strands are one node already.
      if (a !== b) list.add(kindCode.joint, a, b, conductances.joint(jumper.joint), cause, r, jumper.post, strands[n]!);
    }
  });
}

/**
 * On both sides of a gate the strands of a role are tied to the first of them, and one cable, with a joint at either end,
 * joins the first of each side. What stands in series with a strand of the gate's span stands in series with the cable.
 */
function addGates(draft: NetworkDraft): void {
  const { plan, layout, conductances, list, places } = draft;
  plan.gates.forEach((gate, number) => {
    const r = layout.runOf.get(gate.run)!;
    const run = layout.runs[r]!;
    list.partIs('gate', number);
    const tie = list.cause('wire', `tie at ${gate.id}`);
    const cableCause = list.cause('wire', gate.id);
    const joint = conductances.jointParameter(gate.joint);
    for (const role of gate.carriesGrounded ? (['hot', 'grounded'] as const) : (['hot'] as const)) {
      const strands = run.strands.flatMap((strand, s) => (strand.role === role ? [s] : []));
      const first = strands[0];
      if (first === undefined) continue;
      for (const post of [gate.post, gate.post + 1]) {
        for (const s of strands.slice(1)) {
          const [a, b] = [run.nodes[first]![post]!, run.nodes[s]![post]!];
          if (a !== b) list.add(kindCode.joint, a, b, conductances.joint(gate.joint), tie, r, post, s);
        }
      }
      const series = {
        switches: places.inSeries(r, gate.post, first, role).switches,
        faults: strands.flatMap((s) => places.inSeries(r, gate.post, s, role).faults),
      };
      const ohms = [joint, joint, ...seriesOhms(draft, series)];
      const formula = conductances.cable(gate.cable.wire, gate.cable.lengthM, ohms);
      const [a, b] = [run.nodes[first]![gate.post]!, run.nodes[first]![gate.post + 1]!];
      const e = list.add(kindCode.cable, a, b, formula, cableCause, r, gate.post, first);
      list.setMetal(e, gate.cable.lengthM, seriesOpen(draft, series));
      noteSeries(draft, series, e);
    }
  });
}

function addLinks({ plan, layout, conductances, list }: NetworkDraft): void {
  plan.links.forEach(({ id, from, to, role, cable }, number) => {
    list.partIs('link', number);
    const bus = role === 'hot' ? layout.hotBus : layout.groundedBus;
    const [a, b] = [bus[layout.junctionOf.get(from)!]!, bus[layout.junctionOf.get(to)!]!];
    const formula = conductances.cable(cable.wire, cable.lengthM);
    list.setMetal(list.add(kindCode.cable, a, b, formula, list.cause('wire', id)), cable.lengthM);
  });
}

function addStrandRods({ plan, layout, conductances, list, soilAt }: NetworkDraft): void {
  plan.strandRods.forEach((rods, number) => {
    list.partIs('strand rods', number);
    const cause = list.cause('ground', 'rods of the grounded strand');
    const r = layout.runOf.get(rods.run)!;
    const run = layout.runs[r]!;
    const strand = run.strandOf.get(rods.strand)!;
    for (const post of rods.posts) {
      const formula = conductances.strandRod(rods.lengthM, rods.diameterM, soilAt(r, post));
      list.add(kindCode['strand rod'], run.nodes[strand]![post]!, -1, formula, cause, r, post, strand);
    }
  });
}
