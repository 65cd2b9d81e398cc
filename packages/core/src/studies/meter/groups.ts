import { type Estimate, isUncertain } from '@postvolt/tables';
import { calibratedRange, shiftsOf } from '../../network/calibrate.js';
import { drawValue } from '../../network/draw-value.js';
import type { FenceNetwork } from '../../network/network.js';
import { energizerKey, sourceFactor, type UncertainValue, uncertainValues } from '../spread/uncertain.js';
import { usedParameters } from '../spread/used-parameters.js';
import { chargingAmpsPerMetreVolt } from './background.js';

export const chargingKey = 'charging';

/** Step in z for slopes, over which a half log-normal is straight; at 0, where two halves meet, it takes their mean. */
const slopeStep = 1e-3;

/**
 * Input values that are uncertain, in groups that rise and fall together, each moved by one standard normal `z`: 0 is the
 * typical value of every member, −1.645 and 1.645 the ends of its range.
 *
 * Groups that no element of the network uses (the animal that does not touch) are left out. The energizer's output and the
 * charging current that a meter clamps besides the network's are groups too.
 */
export class Groups {
  readonly list: readonly UncertainValue[];
  /** By parameter: its group, −1 for one that is sure or unused. */
  readonly ofParameter: Int32Array;
  /** Number of the energizer's group, −1 where its output is sure, and of the charging current's. */
  readonly energizer: number;
  readonly charging: number;
  readonly #fence: FenceNetwork;
  readonly #source: ReturnType<typeof sourceFactor>;
  readonly #charging: Pick<Estimate, 'low' | 'typical' | 'high'>;

  constructor(fence: FenceNetwork) {
    const { parameters, plan } = fence;
    this.#fence = fence;
    this.#source = sourceFactor(plan.energizer);
    const shift = shiftsOf(plan.calibration).get(chargingKey);
    this.#charging = shift === undefined ? chargingAmpsPerMetreVolt : calibratedRange(chargingAmpsPerMetreVolt, shift);
    const used = usedParameters(fence, false);
    this.list = [
      // What a meter shows does not depend on the animal, whatever the target is of.
      ...uncertainValues({ ...fence, plan: { ...plan, target: { ...plan.target, of: 'to earth' } } }),
      {
        key: chargingKey,
        name: 'charging current that the meter clamps',
        kind: 'meter',
        from: [chargingAmpsPerMetreVolt.source],
      },
    ];
    const index = new Map(this.list.map(({ key }, g) => [key, g]));
    this.ofParameter = Int32Array.from(parameters, ({ group, estimate }, p) =>
      used[p] === 1 && isUncertain(estimate) ? index.get(group)! : -1,
    );
    this.energizer = index.get(energizerKey) ?? -1;
    this.charging = index.get(chargingKey)!;
  }

  /** The groups that are no parameters of the network, with their one value. */
  get besides(): readonly {
    readonly group: number;
    readonly name: string;
    readonly from: string;
    readonly estimate: Estimate;
  }[] {
    const charging = { ...chargingAmpsPerMetreVolt, ...this.#charging };
    const output = { ...chargingAmpsPerMetreVolt, unit: '1', ...this.#source };
    const of = (group: number, estimate: Estimate) => {
      const { name, from } = this.list[group]!;
      return { group, name, from: from.join('; '), estimate };
    };
    return [of(this.charging, charging), ...(this.energizer < 0 ? [] : [of(this.energizer, output)])];
  }

  /** Value of every parameter. */
  values(z: ArrayLike<number>): Float64Array {
    return Float64Array.from(this.#fence.parameters, ({ estimate }, p) => {
      const group = this.ofParameter[p]!;
      return group < 0 ? estimate.typical : drawValue(estimate, z[group]!);
    });
  }

  /** Derivative of the logarithm of every parameter by the z of its group. */
  slopes(z: ArrayLike<number>): Float64Array {
    return Float64Array.from(this.#fence.parameters, ({ estimate }, p) => {
      const group = this.ofParameter[p]!;
      return group < 0 ? 0 : logSlope(estimate, z[group]!);
    });
  }

  sourceFactor(z: ArrayLike<number>): number {
    return this.energizer < 0 ? 1 : drawValue(this.#source, z[this.energizer]!);
  }

  sourceSlope(z: ArrayLike<number>): number {
    return this.energizer < 0 ? 0 : logSlope(this.#source, z[this.energizer]!);
  }

  chargingAmpsPerMetreVolt(z: ArrayLike<number>): number {
    return drawValue(this.#charging, z[this.charging]!);
  }

  chargingSlope(z: ArrayLike<number>): number {
    return logSlope(this.#charging, z[this.charging]!);
  }
}

function logSlope(estimate: Parameters<typeof drawValue>[0], z: number): number {
  const [below, above] = [drawValue(estimate, z - slopeStep), drawValue(estimate, z + slopeStep)];
  return below > 0 && above > 0 ? Math.log(above / below) / (2 * slopeStep) : 0;
}
