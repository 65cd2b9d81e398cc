import type { PlanResult, PostResult, StrandResult } from './result.js';

/** The volts of a strand that a target is compared with. */
export type ComparedVolts = (strand: StrandResult) => number;

/** Picks the volts that a target of this kind is compared with: to earth, or across the animal that touches. */
export const comparedVolts = (of: PlanResult['target']['of']): ComparedVolts =>
  of === 'to earth' ? (strand) => strand.voltsToEarth : (strand) => strand.animalVolts;

/** The hot strand of a post with the fewest volts, one behind an open switch only where there is no other; null where none is hot. */
export function lowestHot(strands: PostResult['strands'], compared: ComparedVolts): StrandResult | null {
  let low: StrandResult | null = null;
  for (const strand of strands) {
    if (strand.role !== 'hot') continue;
    const [off, lowOff] = [strand.status === 'switched off', low?.status === 'switched off'];
    if (low === null || (off === lowOff ? compared(strand) < compared(low) : lowOff)) low = strand;
  }
  return low;
}
