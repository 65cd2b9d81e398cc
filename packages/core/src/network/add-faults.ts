import type { ResolvedFault } from '../plan/resolved.js';
import type { NetworkDraft } from './draft.js';
import { kindCode, openBy } from './elements.js';
import { nearestGrounded } from './layout.js';

/** Faults that make a path of their own: to the post, to earth, or to another strand. */
export function addFaults(draft: NetworkDraft): void {
  for (const [number, fault] of draft.places.activeFaults) addFault(draft, number, fault);
}

function addFault(draft: NetworkDraft, number: number, fault: ResolvedFault): void {
  const { plan, layout, conductances, list, soilAt, faultElements } = draft;
  const row = plan.rows.faults[fault.kind]!;
  if (row.path === 'insulator' || row.path === 'series') return;
  const r = layout.runOf.get(fault.run)!;
  const run = layout.runs[r]!;
  const s = run.strandOf.get(fault.strand)!;
  const cause = list.cause('fault', `${fault.kind} at ${fault.run}/${fault.post}`);
  list.partIs('fault', number);
  const add = (kind: number, a: number, b: number, formula: number, post: number): number => {
    const e = list.add(kind, a, b, formula, cause, r, post, s);
    faultElements[number]!.push(e);
    return e;
  };
  const bodyAt = (post: number) => layout.body[run.posts[post]!]!;
  if (row.path === 'spark gap') {
    const element = add(
      kindCode['spark gap'],
      run.nodes[s]![fault.post]!,
      bodyAt(fault.post),
      conductances.open,
      fault.post,
    );
    draft.sparkGaps.push({
      element,
      volts: conductances.firingVolts(fault, (fault.gapVolts ?? row.gapVolts)!),
      ohms: conductances.faultParameter(fault, (fault.ohms ?? row.ohms)!),
    });
    return;
  }
  const estimate = fault.ohms ?? row.ohms;
  const onSpan = fault.on === 'span';
  for (const post of onSpan ? [fault.post, fault.post + 1] : [fault.post]) {
    const a = run.nodes[s]![post]!;
    if (estimate === null) {
      addAnimal(draft, add, r, s, post);
      continue;
    }
    const formula = conductances.fault(conductances.faultParameter(fault, estimate), onSpan ? 0.5 : 1);
    if (row.path === 'strand to post') add(kindCode['fault contact'], a, bodyAt(post), formula, post);
    else if (row.path === 'strand to grounded') {
      const b = run.nodes[run.strandOf.get(fault.otherStrand!)!]![post]!;
      if (a !== b) add(kindCode['fault contact'], a, b, formula, post);
    } else add(kindCode['fault leak'], a, -1, formula, post);
  }

  /** An animal in contact there goes by the way back that gives it more; the open fence finds which. */
  function addAnimal({ animalFaults }: NetworkDraft, put: typeof add, at: number, strand: number, post: number): void {
    const a = run.nodes[strand]![post]!;
    const toEarth = put(kindCode['fault leak'], a, -1, conductances.animalToEarth(soilAt(at, post)), post);
    const g = nearestGrounded(run.strands, strand);
    if (run.strands[strand]!.role !== 'hot' || g < 0) return;
    const b = run.nodes[g]![post]!;
    const toGrounded = put(kindCode['fault contact'], a, b, conductances.animalBetweenStrands(), post);
    list.setMetal(toEarth, 0, openBy.otherWay);
    animalFaults.push({ toEarth, toGrounded });
  }
}
