import type { Estimate, InsulatorState, Wetness } from '@postvolt/tables';
import type { ResolvedCondition, ResolvedPlan, ResolvedStretch } from '../plan/resolved.js';
import type { RunLayout } from './layout.js';

/** What grows on a strand: an entered leak, or a row of the vegetation table. */
export type Growth =
  | { readonly kind: 'entered'; readonly leak: Estimate }
  | { readonly kind: 'table'; readonly vegetation: string; readonly wetness: Wetness };

/** The insulators of one strand at one post. */
export interface Attachment {
  readonly row: string;
  readonly state: InsulatorState;
  readonly count: number;
  readonly atEnd: boolean;
}

/** What holds at one place, for one strand or, with the strand left out, for the posts and the ground. */
interface Here {
  readonly set: ResolvedStretch['set'];
  attachments: Attachment[];
  growth: Growth | null | undefined;
}

/** What holds at each place of a run, stretches applied; later stretches win over earlier ones. */
export class LocalConditions {
  readonly #plan: ResolvedPlan;
  readonly #condition: ResolvedCondition;
  readonly #run: RunLayout;
  /** Latest first. */
  readonly #stretches: readonly ResolvedStretch[];
  /** Where a stretch begins or ends, ascending: between two of them nothing changes. */
  readonly #breaksM: readonly number[];
  /** By section between breaks and by strand, −1 for none. */
  readonly #known = new Map<number, Here>();

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, run: RunLayout) {
    this.#plan = plan;
    this.#condition = condition;
    this.#run = run;
    this.#stretches = plan.stretches
      .filter((s) => s.run === run.run.id && (s.conditions === null || s.conditions.includes(condition.id)))
      .reverse();
    const ends = this.#stretches.flatMap(({ fromM, toM }) => (toM === null ? [fromM] : [fromM, toM]));
    this.#breaksM = [...new Set(ends)].sort((a, b) => a - b);
  }

  post(atM: number): string {
    return this.#at(atM, -1).set.post ?? this.#run.build.post;
  }

  soil(atM: number): string {
    return this.#at(atM, -1).set.soil ?? this.#plan.soil;
  }

  postWetness(atM: number): Wetness {
    return this.#at(atM, -1).set.postWetness ?? this.#condition.post;
  }

  wire(strand: number, atM: number): string {
    return this.#at(atM, strand).set.wire ?? this.#run.strands[strand]!.wire;
  }

  /** Insulators of a strand at post `i`; fouled posts are spread evenly along the run. */
  insulator(strand: number, i: number, atEnd: boolean): Attachment {
    const here = this.#at(this.#run.positionsM[i]!, strand);
    const fraction = here.set.fouledFraction ?? 0;
    const fouled = fraction > 0 && Math.floor((i + 1) * fraction) > Math.floor(i * fraction);
    const index = (atEnd ? 1 : 0) + (fouled ? 2 : 0);
    here.attachments[index] ??= this.#attachment(strand, here.set, atEnd, fouled);
    return here.attachments[index]!;
  }

  #attachment(strand: number, set: ResolvedStretch['set'], atEnd: boolean, fouled: boolean): Attachment {
    const own = this.#run.strands[strand]!;
    const state = set.insulatorState ?? (atEnd ? own.endInsulatorState : own.insulatorState);
    return {
      row: atEnd ? own.endInsulator : (set.insulator ?? own.insulator),
      state: fouled ? 'fouled' : state,
      count: atEnd ? own.endInsulatorsPerPost : own.insulatorsPerPost,
      atEnd,
    };
  }

  /** Places where the growth may change, ascending, from 0 to the run's length. */
  growthBreaksM(): number[] {
    const length = this.#run.run.lengthM;
    const breaks = new Set([0, length]);
    for (const s of this.#stretches) {
      if (s.set.growth === null && s.set.growthWetness === null && s.set.leakSiemensPerMetre === null) continue;
      for (const at of [s.fromM, s.toM ?? length]) if (at > 0 && at < length) breaks.add(at);
    }
    return [...breaks].sort((a, b) => a - b);
  }

  /** What grows on a strand at a place; a row of the vegetation table only where its top reaches the strand. */
  growth(strand: number, atM: number): Growth | null {
    const here = this.#at(atM, strand);
    if (here.growth === undefined) here.growth = this.#growth(strand, here.set);
    return here.growth;
  }

  #growth(strand: number, set: ResolvedStretch['set']): Growth | null {
    if (set.leakSiemensPerMetre !== null) return { kind: 'entered', leak: set.leakSiemensPerMetre };
    const growth = set.growth ?? this.#condition.growth;
    if (this.#run.strands[strand]!.heightM >= growth.heightM) return null;
    const wetness = set.growthWetness ?? this.#condition.growthWetness;
    return { kind: 'table', vegetation: growth.vegetation, wetness };
  }

  #at(atM: number, strand: number): Here {
    const breaks = this.#breaksM;
    let section = 0;
    if (breaks.length > 0) {
      let high = breaks.length;
      while (section < high) {
        const middle = (section + high) >> 1;
        if (breaks[middle]! <= atM) section = middle + 1;
        else high = middle;
      }
    }
    const key = section * (this.#run.strands.length + 1) + strand + 1;
    let here = this.#known.get(key);
    if (here === undefined) {
      here = { set: this.#setAt(atM, strand), attachments: [], growth: undefined };
      this.#known.set(key, here);
    }
    return here;
  }

  /** The values of every stretch that covers a place, the latest of each kind. */
  #setAt(atM: number, strand: number): ResolvedStretch['set'] {
    const set: { -readonly [K in keyof ResolvedStretch['set']]: unknown } = { ...unset };
    const id = strand < 0 ? null : this.#run.strands[strand]!.id;
    for (const stretch of this.#stretches) {
      if (!(atM >= stretch.fromM && (stretch.toM === null || atM < stretch.toM))) continue;
      if (id !== null && stretch.strands !== null && !stretch.strands.includes(id)) continue;
      // Growth and an entered leak answer one question, what grows here: the later stretch decides both.
      const grown = set.growth !== null || set.leakSiemensPerMetre !== null;
      for (const key of Object.keys(unset) as (keyof ResolvedStretch['set'])[]) {
        if (grown && (key === 'growth' || key === 'leakSiemensPerMetre')) continue;
        set[key] ??= stretch.set[key];
      }
    }
    return set as ResolvedStretch['set'];
  }
}

const unset: ResolvedStretch['set'] = {
  post: null,
  soil: null,
  wire: null,
  insulator: null,
  insulatorState: null,
  fouledFraction: null,
  growth: null,
  growthWetness: null,
  leakSiemensPerMetre: null,
  postWetness: null,
};
