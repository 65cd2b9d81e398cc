import type { Estimate, InsulatorState, Wetness } from '@postvolt/tables';
import type { ResolvedCondition, ResolvedPlan, ResolvedStretch } from '../plan/resolved.js';
import type { RunLayout } from './layout.js';

/** What holds at one place of a run, stretches applied; later stretches win over earlier ones. */
export class LocalView {
  readonly #plan: ResolvedPlan;
  readonly #condition: ResolvedCondition;
  readonly #run: RunLayout;
  readonly #stretches: readonly ResolvedStretch[];

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, run: RunLayout) {
    this.#plan = plan;
    this.#condition = condition;
    this.#run = run;
    this.#stretches = plan.stretches
      .filter((s) => s.run === run.run.id && (s.conditions === null || s.conditions.includes(condition.id)))
      .reverse();
  }

  #find<K extends keyof ResolvedStretch['set']>(
    key: K,
    atM: number,
    strand: string | null,
  ): NonNullable<ResolvedStretch['set'][K]> | null {
    for (const stretch of this.#stretches) {
      const value = stretch.set[key];
      if (value === null || !covers(stretch, atM)) continue;
      if (strand !== null && stretch.strands !== null && !stretch.strands.includes(strand)) continue;
      return value as NonNullable<ResolvedStretch['set'][K]>;
    }
    return null;
  }

  post(atM: number): string {
    return this.#find('post', atM, null) ?? this.#run.build.post;
  }

  soil(atM: number): string {
    return this.#find('soil', atM, null) ?? this.#plan.soil;
  }

  postWetness(atM: number): Wetness {
    return this.#find('postWetness', atM, null) ?? this.#condition.post;
  }

  wire(strand: number, atM: number): string {
    const { id, wire } = this.#run.strands[strand]!;
    return this.#find('wire', atM, id) ?? wire;
  }

  /** Insulator of a strand at post `i`; fouled posts are spread evenly along the run. */
  insulator(strand: number, i: number, atEnd: boolean): { row: string; state: InsulatorState; count: number } {
    const own = this.#run.strands[strand]!;
    const atM = this.#run.positionsM[i]!;
    const fraction = this.#find('fouledFraction', atM, own.id) ?? 0;
    const fouled = Math.floor((i + 1) * fraction) > Math.floor(i * fraction);
    const state = this.#find('insulatorState', atM, own.id) ?? (atEnd ? own.endInsulatorState : own.insulatorState);
    const row = atEnd ? own.endInsulator : (this.#find('insulator', atM, own.id) ?? own.insulator);
    return {
      row,
      state: fouled ? 'fouled' : state,
      count: atEnd ? own.endInsulatorsPerPost : own.insulatorsPerPost,
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

  /** What grows on a strand at a place: an entered leak, or a row of the vegetation table where its top reaches the strand. */
  growth(strand: number, atM: number): Growth | null {
    const { id, heightM } = this.#run.strands[strand]!;
    const entered = this.#find('leakSiemensPerMetre', atM, id);
    if (entered !== null) return { kind: 'entered', leak: entered };
    const growth = this.#find('growth', atM, id) ?? this.#condition.growth;
    if (heightM >= growth.heightM) return null;
    const wetness = this.#find('growthWetness', atM, id) ?? this.#condition.growthWetness;
    return { kind: 'table', vegetation: growth.vegetation, wetness };
  }
}

export type Growth =
  | { readonly kind: 'entered'; readonly leak: Estimate }
  | { readonly kind: 'table'; readonly vegetation: string; readonly wetness: Wetness };

const covers = (stretch: ResolvedStretch, atM: number): boolean =>
  atM >= stretch.fromM && (stretch.toM === null || atM < stretch.toM);
