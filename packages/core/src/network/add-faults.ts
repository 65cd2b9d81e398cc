import type { ResolvedFault } from '../plan/resolved.js';
import { animalToEarth } from './animal-recipes.js';
import type { ElementList } from './elements.js';
import type { Site } from './site.js';

/** Faults that make a path of their own: to the post, to earth, or to another strand. */
export function addFaults(site: Site): void {
  for (const fault of site.faults.active) addFault(site, fault);
}

function addFault(site: Site, fault: ResolvedFault): void {
  const { plan, layout, materials, list, views } = site;
  const row = plan.rows.faults[fault.kind]!;
  const r = layout.runOf.get(fault.run)!;
  const run = layout.runs[r]!;
  const s = run.strandOf.get(fault.strand)!;
  const estimate = fault.ohms ?? row.ohms;
  if (row.path === 'spark gap') {
    addSparkGap(site, fault);
    return;
  }
  const onSpan = fault.on === 'span';
  for (const post of onSpan ? [fault.post, fault.post + 1] : [fault.post]) {
    const a = run.nodes[s]![post]!;
    const recipe =
      estimate === null
        ? animalToEarth(materials, views[r]!.soil(run.positionsM[post]!))
        : materials.fault(materials.faultParameter(fault, estimate), onSpan ? 0.5 : 1);
    const add = (kind: 'fault contact' | 'fault leak', b: number) => {
      list.add({ kind, a, b, recipe, cause: causeOf(list, fault), run: r, post, strand: s });
    };
    if (row.path === 'strand to post') {
      add('fault contact', layout.body[run.posts[post]!]!);
    } else if (row.path === 'strand to grounded') {
      const b = run.nodes[run.strandOf.get(fault.otherStrand!)!]![post]!;
      if (a !== b) add('fault contact', b);
    } else if (row.path === 'strand to earth' || row.path === 'animal') {
      add('fault leak', -1);
    }
  }
}

const causeOf = (list: ElementList, fault: ResolvedFault): number =>
  list.cause('fault', `${fault.kind} at ${fault.run}/${fault.post}`);

/** A spark from the strand to the post, across its insulator. */
function addSparkGap({ plan, layout, materials, list, sparkGaps }: Site, fault: ResolvedFault): void {
  const row = plan.rows.faults[fault.kind]!;
  const r = layout.runOf.get(fault.run)!;
  const run = layout.runs[r]!;
  const strand = run.strandOf.get(fault.strand)!;
  sparkGaps.push({
    element: list.count,
    volts: materials.firingVolts(fault, (fault.gapVolts ?? row.gapVolts)!),
    ohms: materials.faultParameter(fault, (fault.ohms ?? row.ohms)!),
  });
  list.add({
    kind: 'spark gap',
    a: run.nodes[strand]![fault.post]!,
    b: layout.body[run.posts[fault.post]!]!,
    recipe: materials.open,
    cause: causeOf(list, fault),
    run: r,
    post: fault.post,
    strand,
  });
}
