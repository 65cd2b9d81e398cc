import { Matrix } from 'ml-matrix';
import { type Gradient, gradient } from '../../engine/gradient.js';
import { formulaSensitivity } from '../../network/formulas.js';
import type { MeterFence, PlacedFault } from './meter-fence.js';
import { type Observation, observe } from './observation.js';

/** What the readings should be, and how they follow the groups. */
export interface Predicted {
  readonly readings: Float64Array;
  /** One row a reading, one column a group: its derivative by the group's z. */
  readonly slopes: Matrix;
}

/** Readings of a fence with its groups at `z` and with faults in it. */
export function predictReadings(
  meter: MeterFence,
  observations: readonly Observation[],
  z: ArrayLike<number>,
  faults: readonly PlacedFault[] = [],
): Float64Array {
  meter.set(z, faults);
  const { circuit, groups } = meter;
  const { volts } = circuit.solve();
  const needsCharging = observations.some(({ kind }) => kind === 'amps');
  const charging = needsCharging ? meter.chargingVolts(circuit) : volts;
  const charge = groups.chargingAmpsPerMetreVolt(z);
  return Float64Array.from(observations, (observation) =>
    observe(observation, volts, charging, charge, circuit.network.branchSiemens),
  );
}

/**
 * The readings with their slopes, by one adjoint solve a reading. That the charging current follows the groups by way of
 * the volts is left out of the slopes.
 */
export function predictWithSlopes(
  meter: MeterFence,
  observations: readonly Observation[],
  z: ArrayLike<number>,
  faults: readonly PlacedFault[] = [],
): Predicted {
  meter.set(z, faults);
  const { circuit, groups, fence, open, formulaSiemens } = meter;
  const { elements, formulas } = fence;
  const { branchSiemens } = circuit.network;
  const { volts } = circuit.solve();
  const charging = meter.chargingVolts(circuit);
  const charge = groups.chargingAmpsPerMetreVolt(z);
  const pulls = formulaPulls(meter, z);
  const slopes = Matrix.zeros(observations.length, groups.list.length);
  const readings = new Float64Array(observations.length);
  const perFormula = new Float64Array(formulas.length);
  const formulaOfBranch = new Int32Array(branchSiemens.length);
  open.branchOf.forEach((branch, e) => {
    if (branch >= 0) formulaOfBranch[branch] = elements.formula[e]!;
  });
  let slope: Gradient | undefined;
  observations.forEach((observation, i) => {
    const { kind, probe } = observation;
    readings[i] = observe(observation, volts, charging, charge, branchSiemens);
    const nodes: number[] = kind === 'volts' ? [probe.voltsNode] : probe.branches.flatMap(({ from, to }) => [from, to]);
    const weights =
      kind === 'volts' ? [1] : probe.branches.flatMap(({ branch: b }) => [branchSiemens[b]!, -branchSiemens[b]!]);
    slope = gradient(circuit, { nodes, weights }, slope);
    perFormula.fill(0);
    for (let e = 0; e < elements.count; e++) {
      const branch = open.branchOf[e]!;
      const r = elements.formula[e]!;
      perFormula[r]! +=
        branch >= 0
          ? ofWire(branchSiemens[branch]!, formulaSiemens[r]!) * slope.perBranchSiemens[branch]!
          : slope.perLeakSiemens[elements.nodeA[e]!]!;
    }
    let chargingAmps = 0;
    if (kind === 'amps') {
      for (const { branch, from, to } of probe.branches) {
        const r = formulaOfBranch[branch]!;
        perFormula[r]! += ofWire(branchSiemens[branch]!, formulaSiemens[r]!) * (volts[from]! - volts[to]!);
        chargingAmps += branchSiemens[branch]! * (charging[from]! - charging[to]!);
      }
    }
    for (const { formula, group, siemens } of pulls) {
      slopes.set(i, group, slopes.get(i, group) + perFormula[formula]! * siemens);
    }
    if (groups.energizer >= 0) slopes.set(i, groups.energizer, readings[i]! * groups.sourceSlope(z));
    slopes.set(i, groups.charging, chargingAmps * charge * groups.chargingSlope(z));
  });
  return { readings, slopes };
}

/** How a branch's siemens follow those of its wire alone: 1, or less where a fault stands in series; 0 for an open one. */
const ofWire = (siemens: number, wireSiemens: number): number =>
  siemens === wireSiemens || wireSiemens === 0 ? 1 : (siemens / wireSiemens) ** 2;

/** How the siemens of each formula follow the z of each group, entries that are not zero. */
function formulaPulls({ fence, groups }: MeterFence, z: ArrayLike<number>) {
  const values = groups.values(z);
  const logSlopes = groups.slopes(z);
  const pulls: { formula: number; group: number; siemens: number }[] = [];
  fence.formulas.forEach((formula, r) => {
    for (const [parameter, siemens] of formulaSensitivity(formula, values)) {
      const group = groups.ofParameter[parameter]!;
      if (group >= 0) pulls.push({ formula: r, group, siemens: siemens * logSlopes[parameter]! });
    }
  });
  return pulls;
}
