import { refuse } from './issue.js';
import { Pacer, type TaskOptions } from './pacer.js';
import type { Scan } from './scan.js';

/** What the observed nodes read with each place changed in turn. */
export interface ScanTable {
  /** Volts of observed node i with place p changed, at `p · observed + i`. */
  readonly volts: Float64Array;
  /** Amps out of the source with each place changed. */
  readonly amps: Float64Array;
}

/**
 * Changes every place in turn and reads the observed nodes: leaks and pairs get `siemens` more, branches are set to it.
 *
 * `siemens` is one conductance for all or one a place. Gives way to other work every few milliseconds.
 */
export async function scanAll(
  scan: Scan,
  kind: 'leak' | 'branch' | 'pair',
  siemens: number | Float64Array,
  options: TaskOptions = {},
): Promise<ScanTable> {
  const places = { leak: scan.nodeOhms, branch: scan.branchOhms, pair: scan.pairOhms }[kind].length;
  if (typeof siemens !== 'number' && siemens.length !== places)
    refuse('siemens.length', siemens.length, String(places));
  const width = scan.observed.length;
  const table = { volts: new Float64Array(places * width), amps: new Float64Array(places) };
  const pacer = new Pacer(options);
  for (let place = 0; place < places; place++) {
    const value = typeof siemens === 'number' ? siemens : siemens[place]!;
    table.amps[place] = scan[kind](place, value, table.volts.subarray(place * width, (place + 1) * width));
    if (pacer.due) await pacer.step((place + 1) / places);
  }
  await pacer.step(1);
  return table;
}
