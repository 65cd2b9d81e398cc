import type { Estimate } from '@postvolt/tables';

const why =
  'engineering estimate: insulators last as new for a while, weather, and crack towards the end of their life';
const part = (typical: number, low: number, high: number): Estimate => ({
  low,
  typical,
  high,
  unit: '1',
  basis: 'estimate',
  source: why,
  fromMemory: false,
});

/** How insulators grow old, in parts of their service life; the last is the part of them cracked when it is over. */
export const ageingLaw: Readonly<Record<'agedFrom' | 'cracksFrom' | 'crackedAtEnd', Estimate>> = {
  agedFrom: part(0.2, 0.1, 0.4),
  cracksFrom: part(0.5, 0.3, 0.7),
  crackedAtEnd: part(0.05, 0.01, 0.2),
};

/** What insulators of some age are like: the state of the sound ones, and the part of them that is cracked. */
export interface InsulatorAge {
  readonly state: 'new' | 'aged';
  readonly cracked: number;
}

/**
 * What insulators are like at an age in years: new, then aged, and a part cracked that grows with the square of the time
 * since the first cracks.
 */
export function insulatorAge(ageYears: number, serviceYears: number): InsulatorAge {
  const age = ageYears / serviceYears;
  const cracking = Math.max(0, age - ageingLaw.cracksFrom.typical) / (1 - ageingLaw.cracksFrom.typical);
  return {
    state: age < ageingLaw.agedFrom.typical ? 'new' : 'aged',
    cracked: Math.min(1, ageingLaw.crackedAtEnd.typical * cracking ** 2),
  };
}

/** Age at the end of a year of insulators that are replaced as soon as their service life is over, before that replacement. */
export const ageAtEndOf = (year: number, serviceYears: number): number =>
  year <= 0 ? 0 : year - serviceYears * (Math.ceil(year / serviceYears - 1e-9) - 1);
