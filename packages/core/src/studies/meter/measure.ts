import type { MeterScale } from './meter-error.js';
import type { MeterFence } from './meter-fence.js';
import type { Observation, WireMap } from './observation.js';
import type { MeterReading } from './readings.js';
import type { Measured } from './settle.js';

/** A round's readings as observations. */
export interface MeasuredRound extends Measured {
  /** By observation: the post as the reading names it. */
  readonly posts: readonly string[];
}

/** Readings as observations of a fence: volts and amps apart. */
export function measure(
  { fence: { layout } }: MeterFence,
  wires: WireMap,
  readings: readonly MeterReading[],
  scale: MeterScale,
): MeasuredRound {
  const observations: Observation[] = [];
  const values: number[] = [];
  const posts: string[] = [];
  for (const { post, run, postNumber, strands, direction, volts, amps } of readings) {
    const r = layout.runOf.get(run)!;
    const { strandOf } = layout.runs[r]!;
    const probe = wires.probe(
      r,
      postNumber,
      direction,
      strands.map((id) => strandOf.get(id)!),
    );
    if (volts !== null) {
      observations.push({ kind: 'volts', probe });
      values.push(volts);
      posts.push(post);
    }
    if (amps !== null) {
      observations.push({ kind: 'amps', probe });
      values.push(amps);
      posts.push(post);
    }
  }
  return { observations, values: Float64Array.from(values), scale, posts };
}
