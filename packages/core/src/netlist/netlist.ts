import { pickConditions } from '../fence/pick-conditions.js';
import { curvePoints } from '../network/curve.js';
import { type ElementKind, elementKinds, openBy } from '../network/elements.js';
import { sparkOhms } from '../network/engine-network.js';
import type { SparkGap } from '../network/formulas.js';
import { nodeNames } from '../network/layout.js';
import { buildNetwork, elementSiemens, type FenceNetwork, formulaValues } from '../network/network.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { comment, deckNumber, deckText } from './deck-text.js';
import { floatingNodes } from './floating-nodes.js';
import { nodeWords } from './node-words.js';
import { sourceExpression } from './source-expression.js';

/** Of the resistor that holds a part of the network at earth to which nothing else conducts. */
const holdingOhms = 1e12;

/** How the resistors of each kind of element read in a heading. */
const headings: Readonly<Record<ElementKind, string>> = {
  span: 'spans, each to the next post',
  insulator: 'insulators, strand to post body',
  post: 'posts, body to remote earth',
  vegetation: "growth, half of each span's at either end, strand to remote earth",
  joint: 'joints, strand to strand',
  cable: 'cables',
  'ground system': 'ground system of the energizer, to remote earth',
  'strand rod': 'rods of a grounded strand, to remote earth',
  'fault leak': 'fault, to remote earth',
  'fault contact': 'fault, to what the strand touches',
  'spark gap': 'spark, strand to post body',
};

/**
 * The network of a plan in one condition as a SPICE deck: `.op` in a general circuit simulator gives every node's volts.
 *
 * Node 0 is remote earth; the other names are those of `StrandResult.node`. Volts, amperes and ohms, all digits kept.
 * The energizer is its whole output curve, as one behavioural current source (`B`), everything else resistors.
 * Throws a `PlanError` for a condition that the plan does not have.
 */
export function toNetlist(plan: ResolvedPlan, conditionId: string): string {
  return [...netlistLines(plan, conditionId)].join('');
}

/** The lines of `toNetlist`, each with its line break, for decks too long for one string. */
export function* netlistLines(plan: ResolvedPlan, conditionId: string): Generator<string> {
  for (const line of deckLines(plan, conditionId)) yield `${line}\n`;
}

function* deckLines(plan: ResolvedPlan, conditionId: string): Generator<string> {
  const condition = pickConditions(plan, [conditionId])[0]!;
  const fence = buildNetwork(plan, condition);
  const siemens = elementSiemens(fence, formulaValues(fence));
  const names = nodeNames(fence.layout);
  yield `Fence network: ${deckText(`${plan.title}, ${condition.name}`)}`;
  yield comment('Peak volts of the pulse to remote earth, which is node 0; amperes and ohms. Written by Postvolt.');
  yield comment(
    'The operating point (.op) lists every node. ngspice -b prints 7 digits; it keeps all of them with -r FILE.',
  );
  yield '.options reltol=1e-9 vntol=1e-9 abstol=1e-12 pivtol=1e-30 itl1=1000';
  yield '*';
  yield comment('Nodes, as results name them');
  const words = nodeWords(fence.layout);
  for (let node = 0; node < names.length; node++) yield comment(`${names[node]}: ${words[node]}`);
  yield '*';
  yield* energizerLines(fence, names);
  yield* elementLines(fence, siemens, names);
  const floating = floatingNodes(fence, siemens);
  if (floating.length > 0) {
    yield '*';
    yield comment(`nothing conducts to these; ${deckNumber(holdingOhms)} ohms hold them at earth`);
    for (const node of floating) yield `Rheld_${names[node]} ${names[node]} 0 ${deckNumber(holdingOhms)}`;
  }
  yield '*';
  yield '.op';
  yield '.end';
}

function* energizerLines({ plan, condition, layout }: FenceNetwork, names: readonly string[]): Generator<string> {
  const points = curvePoints(plan.energizer, condition);
  const [fence, ground] = [names[layout.fenceTerminal]!, names[layout.groundTerminal]!];
  yield comment('Energizer: amperes out of the fence terminal by the volts between its terminals, end slopes extended');
  for (const [amps, volts] of points) yield comment(`  ${deckNumber(volts)} V at ${deckNumber(amps)} A`);
  yield `Benergizer ${ground} ${fence} I = ${sourceExpression(points, `V(${fence},${ground})`)}`;
}

function* elementLines(fence: FenceNetwork, siemens: Float64Array, names: readonly string[]): Generator<string> {
  const { elements } = fence;
  const gapOf = new Map(fence.sparkGaps.map((gap) => [gap.element, gap]));
  let heading = '';
  let leftOut = 0;
  for (const e of inOrder(fence)) {
    const next = headingOf(fence, e);
    if (next !== heading) {
      yield* leftOutLine(leftOut);
      leftOut = 0;
      yield '*';
      yield comment(next);
    }
    heading = next;
    const [a, b] = [names[elements.nodeA[e]!]!, elements.nodeB[e]! < 0 ? '0' : names[elements.nodeB[e]!]!];
    const gap = gapOf.get(e);
    if (gap) yield sparkLine(fence, gap, a, b);
    else if (siemens[e]! > 0) yield `R${e + 1} ${a} ${b} ${deckNumber(1 / siemens[e]!)}`;
    else if (elements.open[e] === openBy.nothing) leftOut++;
    else yield comment(`open by a ${elements.open[e] === openBy.switch ? 'switch' : 'fault'}: ${a} ${b}`);
  }
  yield* leftOutLine(leftOut);
}

/** A spark gap: max(0, |V| − firing volts) / ohms, with the sign of V. */
function sparkLine({ parameters }: FenceNetwork, gap: SparkGap, a: string, b: string): string {
  const fires = deckNumber(parameters[gap.volts]!.estimate.typical);
  const ohms = deckNumber(sparkOhms(parameters[gap.ohms]!.estimate.typical));
  const volts = `V(${a},${b})`;
  return `B${gap.element + 1} ${a} ${b} I = (max(0, ${volts}-${fires})-max(0, -${volts}-${fires}))/${ohms}`;
}

function* leftOutLine(count: number): Generator<string> {
  if (count > 0) yield comment(`${count} left out: they conduct nothing`);
}

function headingOf({ elements, causes, layout }: FenceNetwork, e: number): string {
  const run = layout.runs[elements.run[e]!];
  const strand = run?.strands[elements.strand[e]!];
  const place = `${run ? `, run ${run.run.id}` : ''}${strand ? `, strand ${strand.id}` : ''}`;
  return `ohms of ${headings[elementKinds[elements.kind[e]!]!]}${place}: ${causes[elements.cause[e]!]!.text}`;
}

/** Elements with those under one heading together: by kind, run, strand and cause, else as they come. */
function inOrder({ elements }: FenceNetwork): Int32Array {
  const { kind, run, strand, cause } = elements;
  return Int32Array.from({ length: elements.count }, (_, e) => e).sort(
    (e, f) => kind[e]! - kind[f]! || run[e]! - run[f]! || strand[e]! - strand[f]! || cause[e]! - cause[f]! || e - f,
  );
}
