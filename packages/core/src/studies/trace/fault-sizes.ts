import type { Candidate } from './candidates.js';

/** A cell of sizes: ohms evenly spread in the logarithm over `width`, or one size (an open wire) of width 0. */
export interface SizeCell {
  readonly ohms: number;
  readonly lowOhms: number;
  readonly highOhms: number;
  /** In natural logarithms. */
  readonly width: number;
  readonly prior: number;
}

/** Within a cell of this width a reading bends by 3 % of the fault's part in it at most. */
const cellWidth = 0.5;

function cells(lowOhms: number, highOhms: number, prior: number): SizeCell[] {
  const count = Math.ceil(Math.log(highOhms / lowOhms) / cellWidth);
  const width = Math.log(highOhms / lowOhms) / count;
  return Array.from({ length: count }, (_, i) => ({
    ohms: lowOhms * Math.exp((i + 0.5) * width),
    lowOhms: lowOhms * Math.exp(i * width),
    highOhms: lowOhms * Math.exp((i + 1) * width),
    width,
    prior: prior / count,
  }));
}

/**
 * Sizes of faults by kind, ends wider than the faults table's: leaks from a wire on metal to a branch on a dry day, strands
 * touching, and of series faults half bad splices, half broken wires.
 */
export const faultSizes: Readonly<Record<Candidate['kind'], readonly SizeCell[]>> = {
  leak: cells(1, 300e3, 1),
  contact: cells(0.01, 1e3, 1),
  series: [
    ...cells(5, 5e3, 0.5),
    {
      ohms: Number.POSITIVE_INFINITY,
      lowOhms: Number.POSITIVE_INFINITY,
      highOhms: Number.POSITIVE_INFINITY,
      width: 0,
      prior: 0.5,
    },
  ],
};
