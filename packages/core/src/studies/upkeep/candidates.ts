import { rodArray } from '@postvolt/tables';
import { type Cause, kindCode, openBy } from '../../network/elements.js';
import { FaultBook } from '../../network/fault-book.js';
import { elementSiemens } from '../../network/fence-circuit.js';
import { LocalView } from '../../network/local.js';
import { buildNetwork, type FenceNetwork, recipeValues } from '../../network/network.js';
import type { ResolvedCondition, ResolvedFault, ResolvedPlan } from '../../plan/resolved.js';
import { formatPlace } from '../../quantity/format.js';
import type { SolvedFence } from '../../result/solved-fence.js';
import { endsOf } from '../compare/insulator-years.js';
import { goodJointOhms, type MendedPlans } from './mended-plans.js';
import type { UpkeepKind } from './result.js';
import { type Section, sectionAt, sectionsOf } from './sections.js';

/** Elements that take other conductances, in one condition. A later rank wins over an earlier one. */
export interface Changes {
  readonly elements: number[];
  readonly siemens: number[];
  /** Spark gaps that no longer fire, by number. */
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
export class CandidateBook {
  readonly candidates = new Map<string, Candidate>();
  readonly #plans: MendedPlans;
  readonly #conditionCount: number;

  constructor(plans: MendedPlans, conditionCount: number) {
    this.#plans = plans;
    this.#conditionCount = conditionCount;
  }

  /** Adds what can be done in one condition, given that condition solved as it is. */
  add(c: number, condition: ResolvedCondition, solved: SolvedFence): void {
    const { plan, sound, renewed, better } = this.#plans;
    const networkOf = (of: ResolvedPlan) => buildNetwork(of, condition);
    const networks = [sound, renewed, better].map(networkOf);
    const siemens = networks.map((network) => elementSiemens(network, recipeValues(network)));
    const [soundS, renewedS, betterS] = siemens as [Float64Array, Float64Array, Float64Array];
    const { elements, layout, causes } = solved.fence;
    const count = networks[0]!.elements.count;
    const views = layout.runs.map((run) => new LocalView(plan, condition, run));
    const betterLayout = networks[2]!.layout;
    const betterViews = betterLayout.runs.map((run) => new LocalView(better, condition, run));
    const isEnd = endsOf(plan, layout);
    const hung = layout.runs.map((run) => sectionsOf(plan, run, ['insulator', 'insulatorState', 'fouledFraction']));
    const grown = layout.runs.map((run) => sectionsOf(plan, run, ['growth', 'growthWetness', 'leakSiemensPerMetre']));
    const change = (candidate: Candidate, e: number, to: number) => {
      const changes = candidate.changes[c]!;
      changes.elements.push(e);
      changes.siemens.push(to);
      candidate.distanceM = Math.min(candidate.distanceM, solved.mendedDistanceM[elements.nodeA[e]!]!);
    };
    const pieces = new Map<Candidate, number>();
    const piece = (candidate: Candidate, n: number) => pieces.set(candidate, (pieces.get(candidate) ?? 0) + n);
    for (let e = 0; e < count; e++) {
      const [r, i, s] = [elements.run[e]!, elements.post[e]!, elements.strand[e]!];
      if (r < 0 || s < 0) continue;
      const run = layout.runs[r]!;
      const atM = run.positionsM[i]!;
      const place = { run: run.run.id, r };
      if (elements.kind[e] === kindCode.vegetation) {
        const n = sectionAt(grown[r]!, atM);
        const section = grown[r]![n]!;
        const found = this.#get(`growth|${r}|${n}`, 'clear growth', {
          ...place,
          section,
          rank: ranks.growth,
          about: this.#sectionWords(section, run.run.lengthM),
        });
        found.amount = section.toM - section.fromM;
        change(found, e, 0);
      } else if (elements.kind[e] === kindCode.insulator && run.strands[s]!.role === 'hot') {
        const atEnd = isEnd(r, i);
        const { row, state, count: each } = views[r]!.insulator(s, i, atEnd);
        const n = sectionAt(hung[r]!, atM);
        const section = hung[r]![n]!;
        const about = this.#sectionWords(section, run.run.lengthM);
        if (state !== 'new' && state !== 'salt') {
          const key = `renew|${r}|${n}|${state}|${row}|${atEnd}`;
          const words = `${state}|${about}`;
          const found = this.#get(key, 'replace insulators', {
            ...place,
            section,
            rank: ranks.renewed,
            row,
            isEnd: atEnd,
            about: words,
          });
          change(found, e, renewedS[e]!);
          piece(found, each);
        }
        const good = betterViews[r]!.insulator(s, i, atEnd).row;
        if (good !== row) {
          const key = `better|${r}|${n}|${good}|${atEnd}`;
          const found = this.#get(key, 'better insulators', {
            ...place,
            section,
            rank: ranks.better,
            row: good,
            isEnd: atEnd,
            about,
          });
          change(found, e, betterS[e]!);
          piece(found, each);
        }
      } else if (elements.kind[e] === kindCode.joint) {
        const cause = causes[elements.cause[e]!]!;
        const bad = this.#badJoint(run.run.id, i, cause);
        if (bad === null) continue;
        const found = this.#get(`joint|${bad.id}`, 'remake joint', {
          ...place,
          section: at(atM),
          rank: ranks.joint,
          row: bad.joint,
          about: bad.id,
        });
        change(found, e, renewedS[e]!);
        found.amount = 1;
      } else if (
        elements.kind[e] === kindCode.span &&
        soundS[e] !== renewedS[e] &&
        elements.open[e] === openBy.nothing
      ) {
        const bad = plan.switches.find((item) => item.run === run.run.id && item.post === i)!;
        const found = this.#get(`joint|${bad.id}`, 'remake joint', {
          ...place,
          section: at(atM),
          rank: ranks.joint,
          row: bad.joint,
          about: bad.id,
        });
        change(found, e, renewedS[e]!);
        found.amount = 1;
      }
    }
    for (const [candidate, n] of pieces) candidate.amount = Math.max(candidate.amount, n);
    this.#faults(c, condition, solved, soundS, change);
    this.#rods(c, solved);
  }

  /** Mending each fault: its own elements go, or the element that it spoils is as it was. */
  #faults(
    c: number,
    condition: ResolvedCondition,
    solved: SolvedFence,
    soundS: Float64Array,
    change: (candidate: Candidate, e: number, to: number) => void,
  ): void {
    const { plan } = this.#plans;
    const { fence } = solved;
    const { elements, layout } = fence;
    let next = soundS.length;
    for (const fault of new FaultBook(plan, condition, layout).active) {
      const r = layout.runOf.get(fault.run)!;
      const run = layout.runs[r]!;
      const s = run.strandOf.get(fault.strand)!;
      const { path } = plan.rows.faults[fault.kind]!;
      const spoils = path === 'insulator' || path === 'series';
      // Two that spoil one element are mended in one go.
      const key = spoils ? `fault|${r}|${fault.post}|${s}|${path}` : `fault|${fault.id}`;
      const found = this.#get(key, 'mend fault', {
        run: fault.run,
        section: at(run.positionsM[fault.post]!),
        rank: ranks.fault,
        row: fault.kind,
        about: `at ${fault.run}/${fault.post}`,
      });
      found.amount = 1;
      if (spoils) {
        const kind = path === 'insulator' ? kindCode.insulator : kindCode.span;
        for (let e = 0; e < soundS.length; e++) {
          if (
            elements.kind[e] === kind &&
            elements.run[e] === r &&
            elements.post[e] === fault.post &&
            elements.strand[e] === s
          )
            change(found, e, soundS[e]!);
        }
        continue;
      }
      for (let n = faultElements(fence, fault); n > 0; n--, next++) {
        const gap = fence.sparkGaps.findIndex(({ element }) => element === next);
        if (gap >= 0) found.changes[c]!.gaps.push(gap);
        change(found, next, 0);
      }
    }
  }

  /** One rod more, and another; the soil is as it was, so the ground follows the array's geometry. */
  #rods(c: number, { fence, siemens }: SolvedFence): void {
    const { ground } = this.#plans.plan.energizer;
    if (ground.kind !== 'rods') return;
    const e = fence.elements.kind.indexOf(kindCode['ground system']);
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

  #badJoint(run: string, post: number, { text }: Cause): { readonly id: string; readonly joint: string } | null {
    const { plan } = this.#plans;
    const jumper = plan.jumpers.find(
      (item) => item.run === run && item.post === post && text === `jumper (${item.joint})`,
    );
    const gate = plan.gates.find((item) => item.run === run && text === `tie at ${item.id}`);
    const found = jumper ?? gate;
    if (found === undefined || plan.rows.joints[found.joint]!.ohms.typical <= goodJointOhms) return null;
    return { id: found.id, joint: found.joint };
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

/** Elements that a fault adds to the network, in the order in which faults are added. */
function faultElements({ plan, layout }: FenceNetwork, fault: ResolvedFault): number {
  const { path } = plan.rows.faults[fault.kind]!;
  if (path === 'spark gap') return 1;
  const posts = fault.on === 'span' ? [fault.post, fault.post + 1] : [fault.post];
  if (path !== 'strand to grounded') return posts.length;
  const { nodes, strandOf } = layout.runs[layout.runOf.get(fault.run)!]!;
  const [a, b] = [strandOf.get(fault.strand)!, strandOf.get(fault.otherStrand!)!];
  return posts.filter((i) => nodes[a]![i] !== nodes[b]![i]).length;
}
