import { PlanError } from '../issue.js';
import { openBy } from '../network/elements.js';
import { buildNetwork } from '../network/network.js';
import type { ResolvedRows } from '../plan/resolved.js';
import { suggestion } from '../plan/suggest.js';
import type { OpenFence } from './open-fence.js';

/** A fault put in by hand: a path of some ohms, or ohms in series with the wire on the span from a post to the next. */
export interface FaultAtPlace {
  /** `to earth`, `in series`, or `between strands`: a hot strand and the grounded one beside it. */
  readonly kind: 'to earth' | 'in series' | 'between strands';
  readonly run: string;
  readonly post: number;
  readonly strand: string;
  /** Infinity parts the wire. */
  readonly ohms: number;
}

/**
 * Sets one input value of an open fence by its key, such as `soil|loam|dry|topsoil`, in its SI unit; the others stay. The
 * keys are those of `fence.network.parameters`. Throws a {@link PlanError} for a key or a value that cannot be.
 */
export function setValue(fence: OpenFence, key: string, value: number): void {
  const { parameters } = fence.network;
  const p = parameters.findIndex((parameter) => parameter.key === key);
  if (p < 0)
    refuseName(
      'key',
      key,
      parameters.map((parameter) => parameter.key),
      'the key of a value of this fence',
    );
  if (!(value >= 0 && value < Infinity)) refuse('out-of-range', key, String(value), 'a finite number, 0 or more');
  const values = fence.values.slice();
  values[p] = value;
  fence.setValues(values);
}

/**
 * Opens or closes a switch of the plan by its id. Throws a {@link PlanError} for a switch that is not there.
 *
 * Switches in one span are in series: it conducts where all are closed.
 */
export function setSwitch(fence: OpenFence, id: string, state: 'open' | 'closed'): void {
  const { switches } = fence.plan;
  const number = switches.findIndex((own) => own.id === id);
  if (number < 0)
    refuseName(
      'switch',
      id,
      switches.map((own) => own.id),
    );
  fence.isSwitchOpen[number] = state === 'open';
  const { switchElements, faultElements } = fence.network;
  for (const e of switchElements[number]!) {
    const isOpen = switchElements.some((members, n) => fence.isSwitchOpen[n]! && members.includes(e));
    const isBroken = faultElements.some((members, n) => members.includes(e) && breaksWire(fence, n));
    fence.setOpen(e, isOpen ? openBy.switch : isBroken ? openBy.fault : openBy.nothing);
  }
}

function breaksWire({ plan }: OpenFence, fault: number): boolean {
  const { kind, ohms } = plan.faults[fault]!;
  const row = plan.rows.faults[kind]!;
  return row.path === 'series' && (ohms ?? row.ohms) === null;
}

/**
 * Puts a fault in, besides those of the plan; to take it out again, put it into a `fork`. Throws a {@link PlanError} for a
 * place that is not there or ohms that cannot be.
 */
export function putFault(fence: OpenFence, { kind, run: runId, post, strand: strandId, ohms }: FaultAtPlace): void {
  const { layout, network } = fence;
  const r = layout.runOf.get(runId) ?? refuseName('run', runId, [...layout.runOf.keys()]);
  const run = layout.runs[r]!;
  const s = run.strandOf.get(strandId) ?? refuseName('strand', strandId, [...run.strandOf.keys()]);
  const most = kind === 'in series' ? run.spans - 1 : run.spans;
  if (!(Number.isInteger(post) && post >= 0 && post <= most))
    refuse('out-of-range', 'post', String(post), `a whole number from 0 to ${most}`);
  if (!(ohms >= 0) || (kind !== 'in series' && ohms === 0))
    refuse('out-of-range', 'ohms', String(ohms), kind === 'in series' ? '0 ohms or more' : 'more than 0 ohms');
  if (kind === 'to earth') {
    fence.addLeak(run.nodes[s]![post]!, 1 / ohms);
    return;
  }
  const { elements, contacts } = network;
  const isThere = (e: number) => elements.run[e] === r && elements.post[e] === post && elements.strand[e] === s;
  if (kind === 'in series') {
    const e = elements.lengthM.findIndex((lengthM, n) => lengthM > 0 && isThere(n));
    if (e < 0) refuse('no-wire', 'strand', `"${strandId}" on ${runId}/${post}`, 'a strand with wire on that span');
    const siemens = fence.siemens[e]!;
    fence.setElement(e, siemens === 0 ? 0 : 1 / (1 / siemens + ohms));
    return;
  }
  const e = contacts.find(isThere);
  if (e === undefined) {
    const hint = contacts.length === 0 ? 'Open the fence with `contacts: true`.' : '';
    refuse('no-contact', 'strand', `"${strandId}" at ${runId}/${post}`, 'a hot strand beside a grounded one', hint);
  }
  fence.setElement(e, fence.siemens[e]! + 1 / ohms);
}

/**
 * Puts another row of the tables in the place of one that the plan stands on; all values are then typical ones. Throws a
 * {@link PlanError} for a row that the plan does not stand on, and for one of another kind, which makes other elements.
 */
export function setRow<Table extends Exclude<keyof ResolvedRows, 'growthWetness'>>(
  fence: OpenFence,
  table: Table,
  id: string,
  row: ResolvedRows[Table][string],
): void {
  const { plan, condition, layout, network } = fence;
  if (!Object.hasOwn(plan.rows[table], id)) refuseName('row', id, Object.keys(plan.rows[table]));
  const rows = { ...plan.rows, [table]: { ...plan.rows[table], [id]: row } };
  const contacts = network.contacts.length > 0;
  const changed = buildNetwork({ ...plan, rows }, condition, { layout, contacts });
  const isSame =
    changed.elements.count === network.elements.count &&
    changed.parameters.length === network.parameters.length &&
    changed.parameters.every(({ key }, p) => key === network.parameters[p]!.key);
  if (!isSame) refuse('other-network', 'row', `"${id}"`, 'a row of the same kind', 'Open the changed plan anew.');
  fence.setNetwork(changed);
}

function refuseName(
  what: string,
  name: string,
  known: readonly string[],
  expected = `one of ${known.join(', ')}`,
): never {
  return refuse(`unknown-${what}`, what, `"${name}"`, expected, suggestion(name, known));
}

function refuse(code: string, path: string, found: string, expected: string, hint = ''): never {
  throw new PlanError([{ code, severity: 'error', path: [path], found, expected, hint, at: null }]);
}
