import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import { addConnections, addGround } from './add-connections.js';
import { addFaults } from './add-faults.js';
import { addPosts } from './add-posts.js';
import { addSpans } from './add-spans.js';
import { Conductances } from './conductances.js';
import type { NetworkDraft } from './draft.js';
import { type Cause, ElementList, type Elements, kindCode, openBy } from './elements.js';
import { type Formula, FormulaList, formulaSiemens, type Parameter, type SparkGap, typicalValues } from './formulas.js';
import { hangingOf, postAtEnd } from './hanging.js';
import { type Layout, layOut, nearestGrounded } from './layout.js';
import { type Attachment, LocalConditions } from './local-conditions.js';
import { Places } from './places.js';

/** The network of a plan in one condition: elements, what their conductances are made of, and the animal that may touch. */
export interface FenceNetwork {
  readonly plan: ResolvedPlan;
  readonly condition: ResolvedCondition;
  readonly layout: Layout;
  readonly elements: Elements;
  readonly causes: readonly Cause[];
  readonly formulas: readonly Formula[];
  readonly parameters: readonly Parameter[];
  readonly attachments: readonly Attachment[];
  readonly sparkGaps: readonly SparkGap[];
  /** By run, by post of the run: formula of the animal from a strand there to earth. */
  readonly animalToEarth: readonly Int32Array[];
  /** Formula of the animal between a hot and a grounded strand. */
  readonly animalBetweenStrands: number;
  /** By post (global number): its element to earth. */
  readonly postElement: Int32Array;
  /** By fault of the plan: the elements that it adds, or whose value it sets; none where it is not there in the condition. */
  readonly faultElements: readonly (readonly number[])[];
  /** By switch of the plan: the elements that it opens. */
  readonly switchElements: readonly (readonly number[])[];
  /** Of the plan's faults `animal` beside a grounded strand: its two ways back, of which one conducts. */
  readonly animalFaults: readonly { readonly toEarth: number; readonly toGrounded: number }[];
  /** Elements without conductance between each hot strand and the grounded one beside it, where they were asked for. */
  readonly contacts: Int32Array;
}

/** How a network is built. */
export interface BuildOptions {
  /** May be shared between the conditions of a plan. */
  readonly layout?: Layout;
  /** Adds an element without conductance between each hot strand and the grounded one beside it, for faults yet to come. */
  readonly contacts?: boolean;
}

/** Builds the network of a plan in one condition. */
export function buildNetwork(
  plan: ResolvedPlan,
  condition: ResolvedCondition,
  { layout = layOut(plan), contacts = false }: BuildOptions = {},
): FenceNetwork {
  const formulas = new FormulaList();
  // A span, an insulator and growth for each strand at each post, the posts, and a little more.
  const list = new ElementList(layout.nodeCount * 3);
  const conductances = new Conductances(plan, condition, formulas);
  const local = layout.runs.map((run) => new LocalConditions(plan, condition, run));
  const attachments: Attachment[] = [];
  const attachmentOf = new Map<Attachment, number>();
  const draft: NetworkDraft = {
    plan,
    condition,
    layout,
    list,
    conductances,
    local,
    places: new Places(plan, condition, layout),
    hanging: hangingOf(layout),
    soilAt: soilAtPosts(layout, local),
    attachmentNumber(attachment) {
      let number = attachmentOf.get(attachment);
      if (number === undefined) {
        number = attachments.push(attachment) - 1;
        attachmentOf.set(attachment, number);
      }
      return number;
    },
    sparkGaps: [],
    postElement: new Int32Array(layout.postCount).fill(-1),
    faultElements: plan.faults.map(() => []),
    switchElements: plan.switches.map(() => []),
    animalFaults: [],
  };
  addGround(draft);
  addSpans(draft);
  addPosts(draft);
  addConnections(draft);
  addFaults(draft);
  const firstContact = list.count;
  if (contacts) addContacts(draft);
  const animalToEarth = layout.runs.map((run, r) =>
    Int32Array.from(run.positionsM, (_, i) => conductances.animalToEarth(draft.soilAt(r, i))),
  );
  const animalBetweenStrands = conductances.animalBetweenStrands();
  const elements = list.finish();
  return {
    plan,
    condition,
    layout,
    elements,
    causes: list.causes,
    formulas: formulas.formulas,
    parameters: formulas.parameters,
    attachments,
    sparkGaps: draft.sparkGaps,
    animalToEarth,
    animalBetweenStrands,
    postElement: draft.postElement,
    faultElements: draft.faultElements,
    switchElements: draft.switchElements,
    animalFaults: draft.animalFaults,
    contacts: Int32Array.from({ length: elements.count - firstContact }, (_, n) => firstContact + n),
  };
}

function soilAtPosts(layout: Layout, local: readonly LocalConditions[]): NetworkDraft['soilAt'] {
  const at = (r: number, i: number) => local[r]!.soil(layout.runs[r]!.positionsM[i]!);
  const ofJunction = layout.ends.map(([first]) => (first === undefined ? '' : at(first.run, postAtEnd(layout, first))));
  return (r, i) => {
    const { spans, from, to } = layout.runs[r]!;
    return i === 0 ? ofJunction[from]! : i === spans ? ofJunction[to]! : at(r, i);
  };
}

function addContacts({ layout, list, conductances }: NetworkDraft): void {
  const cause = list.cause('between strands', 'strands touching');
  const seen = new Set<number>();
  list.partIs('fence');
  layout.runs.forEach((run, r) => {
    run.strands.forEach(({ role }, s) => {
      const g = role === 'hot' ? nearestGrounded(run.strands, s) : -1;
      if (g < 0) return;
      run.nodes[s]!.forEach((a, i) => {
        if (seen.has(a)) return;
        seen.add(a);
        list.add(kindCode['fault contact'], a, run.nodes[g]![i]!, conductances.open, cause, r, i, s);
      });
    });
  });
}

/** Siemens of every formula, for a value per parameter (typical where left out). */
export const formulaValues = (
  network: FenceNetwork,
  values: ArrayLike<number> = typicalValues(network.parameters),
): Float64Array => Float64Array.from(network.formulas, (formula) => formulaSiemens(formula, values));

/** Siemens of every element, from the siemens of every formula; open metal conducts nothing. */
export function elementSiemens({ elements }: FenceNetwork, ofFormula: Float64Array): Float64Array {
  const { count, formula, open } = elements;
  const siemens = new Float64Array(count);
  for (let e = 0; e < count; e++) siemens[e] = open[e] === openBy.nothing ? ofFormula[formula[e]!]! : 0;
  return siemens;
}
