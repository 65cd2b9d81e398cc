import { Matrix } from 'ml-matrix';
import { EngineError } from '../../engine/issue.js';
import { hotNodes } from '../../result/leaks.js';
import { type GroupPrior, toZ } from '../meter/group-prior.js';
import type { MeterFence, PlacedFault } from '../meter/meter-fence.js';
import { predictWithSlopes } from '../meter/reading-model.js';
import { evenSlopes, evenValues, type Measured } from '../meter/settle.js';
import type { Candidate } from './candidates.js';
import { type Directions, visibleDirections } from './directions.js';
import type { SizeCell } from './fault-sizes.js';
import { conditionOn } from './normal-model.js';
import { ReadingScan } from './reading-scan.js';

/** Where the model is made linear: groups' w, and the fault put in for the first slopes. */
export interface LinearizationPoint {
  readonly w: Float64Array;
  readonly fault: PlacedFault | null;
}

/** Groups, and the fault's size, given a hypothesis. */
export interface ConditionalGroups {
  /** Mean of w; what the readings do not see is left at 0. */
  readonly w: Float64Array;
  readonly ohms: number;
  /** Sum of squares left between readings and model, in their own units. */
  readonly misfit: number;
  /** A draw of w and of the size; `normal` gives standard normal numbers. */
  draw(normal: () => number): { readonly w: Float64Array; readonly ohms: number };
}

export const placed = ({ kind, place }: Candidate, ohms: number): PlacedFault =>
  kind === 'leak' ? { kind, node: place, ohms } : { kind, branch: place, ohms };

/**
 * Readings as a function of a fault and of the groups: exact in the fault (rank-one updates), linear in the groups around
 * one setting of them, by differences as wide as the readings leave each direction.
 */
export class LinearScan {
  readonly directions: Directions;
  /** Columns of `slopes`: the directions, then the size within its cell. */
  readonly columns: number;
  /** Of the last look, on the even scale: readings less model, and slopes by column. */
  readonly residual: Float64Array;
  readonly slopes: Float64Array;
  readonly #measured: Measured;
  readonly #values: Float64Array;
  readonly #w0: Float64Array;
  readonly #start: Float64Array;
  readonly #centre: ReadingScan;
  readonly #pairs: readonly (readonly [ReadingScan, ReadingScan])[];
  readonly #weakestVolts: number;
  readonly #plus: Float64Array;
  readonly #minus: Float64Array;
  readonly #charging: Float64Array;

  constructor(
    meter: MeterFence,
    measured: Measured,
    prior: GroupPrior,
    around: LinearizationPoint,
    baseFaults: readonly PlacedFault[],
  ) {
    const { observations } = measured;
    const n = observations.length;
    const z0 = toZ(prior, around.w);
    const faults = around.fault === null ? baseFaults : [...baseFaults, around.fault];
    const directions = directionsAt(meter, measured, prior, z0, faults);
    this.directions = directions;
    this.columns = directions.vectors.length + 1;
    this.residual = new Float64Array(n);
    this.slopes = new Float64Array(n * this.columns);
    this.#measured = measured;
    this.#values = evenValues(measured, measured.values);
    this.#w0 = around.w;
    this.#start = Float64Array.from(directions.vectors, (vector) => dot(vector, around.w));
    this.#plus = new Float64Array(n);
    this.#minus = new Float64Array(n);
    this.#charging = new Float64Array(n);
    const at = (w: Float64Array, options: { withCharging: boolean; extraNodes?: readonly number[] }) => {
      const z = toZ(prior, w);
      meter.set(z, baseFaults);
      return new ReadingScan(meter, z, observations, options);
    };
    meter.set(z0, baseFaults);
    const { nodes, volts } = weakNodes(meter);
    this.#weakestVolts = volts;
    this.#centre = at(around.w, { withCharging: true, extraNodes: nodes });
    this.#pairs = directions.vectors.map((vector, d) => {
      const moved = (sign: number) => around.w.map((w, g) => w + sign * directions.steps[d]! * vector[g]!);
      return [at(moved(1), { withCharging: false }), at(moved(-1), { withCharging: false })] as const;
    });
  }

  /**
   * Writes what the meter would show with the fault, on the even scale, and the charging part for one ampere a metre and volt.
   *
   * @returns the part of the weakest post's volts that it costs; null where the network has no such state.
   */
  centre(fault: PlacedFault, readings: Float64Array, charging: Float64Array): number | null {
    try {
      const least = this.#centre.read(fault, readings, charging);
      this.#toEven(readings);
      return 1 - least / this.#weakestVolts;
    } catch (error) {
      // A wire opened can leave a part with nothing to hold its volts.
      if (error instanceof EngineError) return null;
      throw error;
    }
  }

  /** Sets residual and slopes for a fault of which `centre` gave the first two, `ofSize` being the readings' change by size. */
  look(fault: PlacedFault, readings: Float64Array, charging: Float64Array, ofSize: Float64Array | null): void {
    const n = this.#values.length;
    const last = (this.columns - 1) * n;
    for (let i = 0; i < n; i++) {
      this.residual[i] = this.#values[i]! - readings[i]!;
      this.slopes[last + i] = ofSize === null ? 0 : ofSize[i]!;
    }
    this.#charging.set(charging);
    this.#pairs.forEach(([above, below], d) => {
      above.read(fault, this.#plus, this.#charging);
      below.read(fault, this.#minus, this.#charging);
      this.#toEven(this.#plus);
      this.#toEven(this.#minus);
      const width = 2 * this.directions.steps[d]!;
      for (let i = 0; i < n; i++) {
        const slope = (this.#plus[i]! - this.#minus[i]!) / width;
        this.slopes[d * n + i] = slope;
        this.residual[i]! += slope * this.#start[d]!;
      }
    });
  }

  #toEven(readings: Float64Array): void {
    const { observations, scale } = this.#measured;
    for (let i = 0; i < readings.length; i++) readings[i] = scale.even(observations[i]!.kind, readings[i]!);
  }

  /** Groups and size given the fault of the last look. */
  conditional(size: SizeCell): ConditionalGroups {
    const { vectors, leftOut } = this.directions;
    const count = this.columns;
    const n = this.residual.length;
    const { mean, draw } = conditionOn(n, this.residual, this.slopes, count, leftOut);
    let misfit = 0;
    for (let i = 0; i < n; i++) {
      let rest = this.residual[i]!;
      for (let c = 0; c < count; c++) rest -= this.slopes[c * n + i]! * mean[c]!;
      misfit += (rest * rest) / (1 + leftOut[i]!);
    }
    const groups = this.#w0.length;
    /** `w` with its parts along the directions replaced. */
    const along = (x: Float64Array, w: Float64Array) => {
      vectors.forEach((vector, d) => {
        const missing = x[d]! - dot(vector, w);
        for (let g = 0; g < groups; g++) w[g]! += missing * vector[g]!;
      });
      return w;
    };
    const half = size.width / 2;
    const sizeOf = (x: number) =>
      size.width === 0
        ? size.ohms
        : size.ohms * Math.exp(Math.min(half, Math.max(-half, (x * size.width) / Math.sqrt(12))));
    return {
      w: along(mean, new Float64Array(groups)),
      ohms: sizeOf(mean[count - 1]!),
      misfit,
      draw(normal) {
        const x = draw(normal);
        return { w: along(x, Float64Array.from({ length: groups }, normal)), ohms: sizeOf(x[count - 1]!) };
      },
    };
  }
}

function directionsAt(
  meter: MeterFence,
  measured: Measured,
  prior: GroupPrior,
  z0: Float64Array,
  faults: readonly PlacedFault[],
): Directions {
  const { observations } = measured;
  if (observations.length === 0) return visibleDirections(new Matrix(0, meter.groups.list.length));
  const slopes = evenSlopes(predictWithSlopes(meter, observations, z0, faults), measured);
  return visibleDirections(slopes.mmul(prior.factor));
}

/** Part of the highest volts on the fence under which a strand counts as cut off. */
const deadShare = 0.01;

/** Nodes among which the weakest post is looked for, and its volts as set: ends of hot strands, and the weakest node of all. */
function weakNodes({ circuit, fence, open }: MeterFence): { readonly nodes: number[]; readonly volts: number } {
  const { volts } = circuit.solve();
  const hot = hotNodes(fence);
  // What an earlier fault has cut off has no volts left to lose.
  const least = deadShare * volts.reduce((most, value) => Math.max(most, value), 0);
  const live = (node: number) => hot[node] === 1 && Number.isFinite(open.distanceM[node]!) && volts[node]! > least;
  const nodes = new Set<number>();
  let weakest = -1;
  for (const run of fence.layout.runs) {
    run.strands.forEach((_, s) => {
      for (const end of [0, run.spans]) if (live(run.nodes[s]![end]!)) nodes.add(run.nodes[s]![end]!);
      for (const node of run.nodes[s]!)
        if (live(node) && (weakest < 0 || volts[node]! < volts[weakest]!)) weakest = node;
    });
  }
  nodes.add(weakest);
  return { nodes: [...nodes], volts: volts[weakest]! };
}

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
};
