import type { SourceCurve } from '../../engine/source-curve.js';
import { postIdOf } from '../../fence/hot-posts.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import type { FenceWithoutSupply } from './fence-without-supply.js';
import type { GroundTest, TestVerdict } from './result.js';
import { deepOhmM, probeOhmsPerOhmM, type RodArrays } from './rods.js';
import { firstCount } from './supply-in-all-conditions.js';
import type { Shorted, TwoPort } from './two-port.js';

/** A reading of up to the first passes, of more than the second fails (Virginia Cooperative Extension SPES-204, from memory). */
export const testLimitVolts = { passes: 200, fails: 300 } as const;

const testVerdict = (readVolts: number): TestVerdict =>
  readVolts <= testLimitVolts.passes ? 'passes' : readVolts <= testLimitVolts.fails ? 'borderline' : 'fails';

/** How the field test is taken. */
export interface TestSetting {
  /** With the soils' rows. */
  readonly plan: ResolvedPlan;
  /** Arrays of the plan's own rods, and of those asked for. */
  readonly own: RodArrays;
  readonly asked: RodArrays;
  readonly shortAtM: number;
  readonly shortVolts: number;
  readonly probeM: number;
  readonly mostRods: number;
}

/** The field test of a ground system in one condition. */
export class GroundTester {
  readonly #fence: FenceWithoutSupply;
  readonly #setting: TestSetting;
  readonly #place: ShortPlace;

  constructor(fence: FenceWithoutSupply, setting: TestSetting) {
    this.#fence = fence;
    this.#setting = setting;
    this.#place = shortPlace(fence.remainder, setting.shortAtM);
  }

  /** What a meter between the last of so many rods and the probe reads in a soil. */
  readVolts(count: number, soil: string): number {
    return this.#reading(this.#setting.asked, count, soil).readVolts;
  }

  /** The test of the plan's ground system, its rods standing in a soil. */
  test(soil: string): GroundTest {
    const { plan, own, mostRods } = this.#setting;
    const { ground } = plan.energizer;
    const count = ground.kind === 'rods' ? ground.count : null;
    const reading = count === null ? null : this.#reading(own, count, soil);
    const groundOhms = reading?.groundOhms ?? 1 / this.#fence.groundSiemens;
    const shorted = reading?.shorted ?? this.#short(groundOhms, this.#fence.curve);
    return {
      condition: this.#fence.condition.id,
      soil,
      rods: count,
      groundOhms,
      shortPost: this.#place.post,
      shortAtM: this.#place.atM,
      shortOhms: shorted.siemens > 0 ? 1 / shorted.siemens : null,
      fenceVolts: shorted.volts,
      amps: shorted.amps,
      riseVolts: shorted.riseVolts,
      probeVolts: reading?.probeVolts ?? null,
      readVolts: reading?.readVolts ?? null,
      verdict: reading === null ? null : testVerdict(reading.readVolts),
      rodsToPass: firstCount(mostRods, (n) => this.readVolts(n, soil) <= testLimitVolts.fails),
    };
  }

  #reading(arrays: RodArrays, count: number, soil: string) {
    const { plan, probeM } = this.#setting;
    const array = arrays.of(count);
    const groundOhms = array.ohmsPerOhmM * deepOhmM(plan, soil, this.#fence.condition);
    const shorted = this.#short(groundOhms, this.#fence.curve);
    // The rods' own current sets up the field that the probe stands in.
    const probeVolts = (shorted.riseVolts * probeOhmsPerOhmM(array, probeM)) / array.ohmsPerOhmM;
    return { groundOhms, shorted, probeVolts, readVolts: shorted.riseVolts - probeVolts };
  }

  #short(groundOhms: number, curve: SourceCurve): Shorted {
    return this.#fence.remainder.short(1 / groundOhms, curve, this.#place.node, this.#setting.shortVolts);
  }
}

/** Where the fence is shorted: the nearest post at least so far from the energizer, or the farthest where none is. */
interface ShortPlace {
  readonly post: string;
  readonly node: number;
  readonly atM: number;
}

function shortPlace({ fence: { hot, distanceM } }: TwoPort, atLeastM: number): ShortPlace {
  const { nodes } = hot;
  let best = -1;
  const far = (entry: number) => distanceM[nodes[entry]!]!;
  for (let entry = 0; entry < nodes.length; entry++) {
    if (!Number.isFinite(far(entry))) continue;
    if (best < 0) best = entry;
    else if (far(best) >= atLeastM) {
      if (far(entry) >= atLeastM && far(entry) < far(best)) best = entry;
    } else if (far(entry) > far(best)) best = entry;
  }
  return { post: postIdOf(hot, best), node: nodes[best]!, atM: far(best) };
}
