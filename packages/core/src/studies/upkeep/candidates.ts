import { rodArray } from '@postvolt/tables';
import { groundElement } from '../../fence/ground.js';
import type { FenceChange, OpenFence } from '../../fence/open-fence.js';
import { elementsOfPart, kindCode } from '../../network/elements.js';
import { buildNetwork, elementSiemens, formulaValues } from '../../network/network.js';
import { formatPlace } from '../../quantity/format.js';
import { goodJointOhms, type MendedPlans } from './mended-plans.js';
import type { UpkeepKind } from './result.js';
import { type Section, sectionAt, sectionsOf } from './sections.js';

/** A change of the fence in one condition; a later rank wins over an earlier one. */
export interface Changes extends FenceChange {
  readonly elements: number[];
  readonly siemens: number[];
  readonly gaps: number[];
}

/** Something that can be done, before it is priced. */
export interface Candidate {
  readonly id: string;
  readonly kind: UpkeepKind;
  readonly run: string | null;
  readonly section: Section | null;
  /** Row of the tables that it is about: insulator, fault, joint. */
  readonly row: string;
  /** State of what is replaced, or the place, for the words. */
  readonly about: string;
  readonly isEnd: boolean;
  /** Of two that change one element, the higher rank decides. */
  readonly rank: number;
  /** Id of the candidate that must be done first; null where none must. */
  readonly after: string | null;
  /** Pieces or metres of it, the most of any condition. */
  amount: number;
  distanceM: number;
  /** By condition, in the order of the fences. */
  readonly changes: Changes[];
}

const ranks = { fault: 1, renewed: 2, better: 3, growth: 1, joint: 1, rod: 1 } as const;
/** Rods that may be added. */
const mostRods = 3;

/** Gathers what can be done on a fence, with what each thing does in every condition. */
export class RepairList {
  readonly candidates = new Map<string, Candidate>();
  readonly #plans: MendedPlans;
  readonly #conditionCount: number;

  constructor(plans: MendedPlans, conditionCount: number) {
    this.#plans = plans;
    this.#conditionCount = conditionCount;
  }

  /** Adds what can be done in one condition, given that condition opened as it is. */
  add(c: number, fence: OpenFence): void {
    const { plan, sound, renewed, better } = this.#plans;
    const [soundNet, renewedNet, betterNet] = [sound, renewed, better].map((of) => buildNetwork(of, fence.condition));
    const [soundS, renewedS, betterS] = [soundNet!, renewedNet!, betterNet!].map((network) =>
      elementSiemens(network, formulaValues(network)),
    );
    const { layout, elements } = fence.network;
    const hung = layout.runs.map((run) => sectionsOf(plan, run, ['insulator', 'insulatorState', 'fouledFraction']));
    const grown = layout.runs.map((run) => sectionsOf(plan, run, ['growth', 'growthWetness', 'leakSiemensPerMetre']));
    const change = (candidate: Candidate, e: number, to: number) => {
      const { elements: changed, siemens } = candidate.changes[c]!;
      changed.push(e);
      siemens.push(to);
      candidate.distanceM = Math.min(candidate.distanceM, fence.mendedDistanceM[elements.nodeA[e]!]!);
    };
    const pieces = new Map<Candidate, number>();
    const piece = (candidate: Candidate, n: number) => pieces.set(candidate, (pieces.get(candidate) ?? 0) + n);
    for (let e = 0; e < soundNet!.elements.count; e++) {
      const [r, i, s] = [elements.run[e]!, elements.post[e]!, elements.strand[e]!];
      if (r < 0 || s < 0) continue;
      const run = layout.runs[r]!;
      const atM = run.positionsM[i]!;
      const place = { run: run.run.id };
      if (elements.kind[e] === kindCode.vegetation) {
        const n = sectionAt(grown[r]!, atM);
        const section = grown[r]![n]!;
        const about = this.#sectionWords(section, run.run.lengthM);
        const found = this.#get(`growth|${r}|${n}`, 'clear growth', { ...place, section, rank: ranks.growth, about });
        found.amount = section.toM - section.fromM;
        change(found, e, 0);
      } else if (elements.kind[e] === kindCode.insulator && run.strands[s]!.role === 'hot') {
        const { row, state, count: each, atEnd } = soundNet!.attachments[soundNet!.elements.attachment[e]!]!;
        const n = sectionAt(hung[r]!, atM);
        const section = hung[r]![n]!;
        const about = this.#sectionWords(section, run.run.lengthM);
        const where = { ...place, section, isEnd: atEnd };
        if (state !== 'new' && state !== 'salt') {
          const key = `renew|${r}|${n}|${state}|${row}|${atEnd}`;
          const rest = { ...where, rank: ranks.renewed, row, about: `${state}|${about}` };
          const found = this.#get(key, 'replace insulators', rest);
          change(found, e, renewedS![e]!);
          piece(found, each);
        }
        const good = betterNet!.attachments[betterNet!.elements.attachment[e]!]!.row;
        if (good !== row) {
          const key = `better|${r}|${n}|${good}|${atEnd}`;
          const found = this.#get(key, 'better insulators', { ...where, rank: ranks.better, row: good, about });
          change(found, e, betterS![e]!);
          piece(found, each);
        }
      }
    }
    for (const [candidate, n] of pieces) candidate.amount = Math.max(candidate.amount, n);
    this.#joints(fence, soundS!, renewedS!, change);
    this.#faults(c, fence, soundS!, change);
    this.#rods(c, fence);
  }

  /** Remaking the bad joints of jumpers, gates and switches. */
  #joints(
    { network: { layout, elements, switchElements } }: OpenFence,
    soundS: Float64Array,
    renewedS: Float64Array,
    change: (candidate: Candidate, e: number, to: number) => void,
  ): void {
    const { plan } = this.#plans;
    const remake = (
      { id, run, post, joint }: { id: string; run: string; post: number; joint: string },
      members: readonly number[],
    ) => {
      if (plan.rows.joints[joint]!.ohms.typical <= goodJointOhms) return;
      // What is open, or the same node, wins nothing by a better joint.
      const changed = members.filter((e) => soundS[e]! > 0 && soundS[e] !== renewedS[e]);
      if (changed.length === 0) return;
      const section = at(layout.runs[layout.runOf.get(run)!]!.positionsM[post]!);
      const found = this.#get(`joint|${id}`, 'remake joint', {
        run,
        section,
        rank: ranks.joint,
        row: joint,
        about: id,
      });
      found.amount = 1;
      for (const e of changed) change(found, e, renewedS[e]!);
    };
    plan.jumpers.forEach((jumper, n) => {
      remake(jumper, elementsOfPart(elements, 'jumper', n));
    });
    plan.gates.forEach((gate, n) => {
      remake(gate, elementsOfPart(elements, 'gate', n));
    });
    plan.switches.forEach((own, n) => {
      remake(own, switchElements[n]!);
    });
  }

  /** Mending each fault: its own elements go, or the element that it spoils is as it was. */
  #faults(
    c: number,
    { network: { faultElements, sparkGaps, layout } }: OpenFence,
    soundS: Float64Array,
    change: (candidate: Candidate, e: number, to: number) => void,
  ): void {
    const { plan } = this.#plans;
    plan.faults.forEach((fault, number) => {
      const members = faultElements[number]!;
      if (members.length === 0) return;
      const { path } = plan.rows.faults[fault.kind]!;
      const spoils = path === 'insulator' || path === 'series';
      // Two that spoil one element are mended in one go.
      const key = spoils ? `fault|${members[0]}|${path}` : `fault|${fault.id}`;
      const run = layout.runs[layout.runOf.get(fault.run)!]!;
      const found = this.#get(key, 'mend fault', {
        run: fault.run,
        section: at(run.positionsM[fault.post]!),
        rank: ranks.fault,
        row: fault.kind,
        about: `at ${fault.run}/${fault.post}`,
      });
      found.amount = 1;
      for (const e of members) {
        const gap = sparkGaps.findIndex(({ element }) => element === e);
        if (gap >= 0) found.changes[c]!.gaps.push(gap);
        change(found, e, spoils ? soundS[e]! : 0);
      }
    });
  }

  /** One rod more, and another; the soil is as it was, so the ground follows the array's geometry. */
  #rods(c: number, { network, siemens }: OpenFence): void {
    const { ground } = this.#plans.plan.energizer;
    if (ground.kind !== 'rods') return;
    const e = groundElement(network);
    const before = rodArray(ground).ohmsPerOhmM;
    for (let more = 1; more <= mostRods; more++) {
      const found = this.#get(`rod|${more}`, 'add rod', {
        run: null,
        section: null,
        rank: more,
        row: 'ground rod',
        about: String(ground.count + more),
        after: more === 1 ? null : `rod|${more - 1}`,
      });
      found.amount = 1;
      found.distanceM = 0;
      const changes = found.changes[c]!;
      changes.elements.push(e);
      changes.siemens.push((siemens[e]! * before) / rodArray({ ...ground, count: ground.count + more }).ohmsPerOhmM);
    }
  }

  #sectionWords({ fromM, toM }: Section, lengthM: number): string {
    if (fromM === 0 && toM === lengthM) return '';
    const { units } = this.#plans.plan;
    return ` from ${formatPlace(fromM, units)} to ${formatPlace(toM, units)}`;
  }

  #get(
    id: string,
    kind: UpkeepKind,
    rest: Pick<Candidate, 'run' | 'section' | 'rank'> & Partial<Pick<Candidate, 'row' | 'about' | 'isEnd' | 'after'>>,
  ): Candidate {
    const known = this.candidates.get(id);
    if (known !== undefined) return known;
    const { run, section, rank, row = '', about = '', isEnd = false, after = null } = rest;
    const made: Candidate = {
      ...{ id, kind, run, section, rank, row, about, isEnd, after },
      amount: 0,
      distanceM: Number.POSITIVE_INFINITY,
      changes: Array.from({ length: this.#conditionCount }, () => ({ elements: [], siemens: [], gaps: [] })),
    };
    this.candidates.set(id, made);
    return made;
  }
}

const at = (metres: number): Section => ({ fromM: metres, toM: metres });
