/** Why a strand at a post carries the volts that it does. */
export type StrandStatus =
  /** Joined by metal to the energizer's fence terminal. */
  | 'live'
  /** Hot strand behind an open switch: listed, left out of the verdict. */
  | 'switched off'
  /** Hot strand that a fault has cut off: fails the verdict. */
  | 'dead'
  /** Grounded strand. */
  | 'grounded';

/** Status of a strand by its role and its ways of metal, m, as it is and with every fault mended; Infinity where there is none. */
export function strandStatus(role: 'hot' | 'grounded', distanceM: number, mendedDistanceM: number): StrandStatus {
  if (role === 'grounded') return 'grounded';
  if (Number.isFinite(distanceM)) return 'live';
  return Number.isFinite(mendedDistanceM) ? 'dead' : 'switched off';
}
