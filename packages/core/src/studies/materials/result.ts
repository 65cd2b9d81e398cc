import type { Basis } from '@postvolt/tables';
import type { PlanResult } from '../../result/result.js';
import type { Money } from './price-list.js';

/** What `materials` lists. */
export type MaterialGroup = 'wire' | 'posts' | 'insulators' | 'ends and corners' | 'fittings' | 'ground' | 'energizer';

/** One thing to buy. */
export interface MaterialLine {
  readonly group: MaterialGroup;
  /** Row of the tables, or of the prices: `12.5 ga high-tensile`, `deep end post`. */
  readonly item: string;
  /** What the plan takes, without waste: metres, or pieces. */
  readonly need: number;
  readonly per: 'metre' | 'piece';
  /** What is bought: metres in whole coils where the wire comes in coils, or pieces. */
  readonly buy: number;
  /** Whole coils of so many metres; null where it does not come in coils. */
  readonly coils: { readonly count: number; readonly coilM: number } | null;
  /** For a metre or a piece, where it comes from; null where nobody has given a price. */
  readonly price: (Money & { readonly basis: Basis; readonly source: string }) | null;
  /** Of what is bought. */
  readonly cost: Money;
  /** Years of service. */
  readonly serviceYears: Money;
  /** Years at whose start it is replaced within the years asked for. */
  readonly replacedIn: readonly number[];
  /** Of all replacements, with the work. */
  readonly replacementCost: Money;
  /** Such as how deep a post is set; empty where there is nothing to add. */
  readonly note: string;
}

/** What a plan takes to build and to keep up. */
export interface MaterialsResult {
  readonly format: 'postvolt materials';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: 'imperial' | 'metric';
  /** The answer in one sentence. */
  readonly sentence: string;
  /** Word behind amounts: the user's, or `money`. */
  readonly currency: string;
  readonly lines: readonly MaterialLine[];
  /** Of all that is bought at first; work of building is not in it. */
  readonly cost: Money;
  /** Part of `cost` whose prices are the user's own, 0 to 1. */
  readonly ownPriceShare: number;
  readonly lifeCycle: {
    readonly years: number;
    /** First cost and replacements with their work, without interest. */
    readonly cost: Money;
    readonly costPerYear: Money;
  };
  /** Wire that is bought beyond what the plan takes, as a part of it. */
  readonly waste: number;
  readonly notes: readonly string[];
  readonly cautions: PlanResult['cautions'];
}
