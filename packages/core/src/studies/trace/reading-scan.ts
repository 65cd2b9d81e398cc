import { Scan } from '../../engine/scan.js';
import { SourceCurve } from '../../engine/source-curve.js';
import { faultedSiemens, type MeterFence, type PlacedFault } from '../meter/meter-fence.js';
import type { Observation } from '../meter/observation.js';

/** Conductance a metre that stands for the charging current in a difference of two scans: too small to bend anything. */
const probeSiemensPerMetre = 1e-9;

/** An observation as places in a scan's list of observed nodes. */
interface Watched {
  readonly voltsAt: number;
  readonly wires: readonly { readonly branch: number; readonly from: number; readonly to: number }[];
}

/** Readings as a function of one more fault, anywhere, for one setting of the groups: rank-one updates of one solution. */
export class ReadingScan {
  readonly #scan: Scan;
  readonly #charging: Scan | null;
  readonly #curve: SourceCurve;
  readonly #watched: readonly Watched[];
  readonly #share: Float64Array;
  readonly #volts: Float64Array;
  readonly #point = { volts: 0, amps: 0, segment: 0 };
  /** Of the charging current, once multiplied by amps a metre and volt. */
  readonly #ampsPerMetreVolt: number;
  readonly #extra: number;

  /** Of the meter's values as set last; `extraNodes` are watched too. With `withCharging` the charging current is scanned. */
  constructor(
    meter: MeterFence,
    z: ArrayLike<number>,
    observations: readonly Observation[],
    options: { readonly withCharging: boolean; readonly extraNodes?: readonly number[] },
  ) {
    const nodes: number[] = [...(options.extraNodes ?? [])];
    this.#extra = nodes.length;
    const at = new Map<number, number>();
    const watch = (node: number) => {
      const known = at.get(node);
      if (known !== undefined) return known;
      at.set(node, nodes.length);
      return nodes.push(node) - 1;
    };
    this.#watched = observations.map(({ kind, probe }) => ({
      voltsAt: kind === 'volts' ? watch(probe.voltsNode) : -1,
      wires:
        kind === 'volts'
          ? []
          : probe.branches.map(({ branch, from, to }) => ({ branch, from: watch(from), to: watch(to) })),
    }));
    // A source of one volt: every answer is then a share of the terminals' volts, and the curve is met afterwards.
    const circuit = meter.circuit.fork();
    circuit.setSource(SourceCurve.ideal(1));
    this.#curve = meter.circuit.source;
    this.#scan = new Scan(circuit, nodes);
    this.#share = circuit.share().slice();
    this.#volts = new Float64Array(nodes.length);
    this.#ampsPerMetreVolt = meter.groups.chargingAmpsPerMetreVolt(z);
    this.#charging = null;
    if (options.withCharging && observations.some(({ kind }) => kind === 'amps')) {
      const charged = circuit.fork();
      charged.setSource(SourceCurve.ideal(1));
      const { leakSiemens } = charged.network;
      meter.chargedM.forEach((metres, node) => {
        leakSiemens[node]! += metres * probeSiemensPerMetre;
      });
      charged.valuesChanged();
      this.#charging = new Scan(charged, nodes);
    }
  }

  /**
   * Writes the readings with the fault in place. `charging`, per reading, is amps for one ampere a metre and volt: computed
   * and written where this scan has it, read where it has not.
   *
   * @returns least volts among the extra nodes and at the fault itself.
   */
  read(fault: PlacedFault | null, readings: Float64Array, charging: Float64Array): number {
    const volts = this.#volts;
    const scan = this.#scan;
    const siemens = this.#respond(scan, fault);
    const terminal = this.#curve.meet(siemens, 0, this.#point).volts;
    for (let i = 0; i < this.#watched.length; i++) {
      const { voltsAt, wires } = this.#watched[i]!;
      if (voltsAt >= 0) readings[i] = terminal * volts[voltsAt]!;
      else readings[i] = terminal * this.#amps(scan, fault, wires);
    }
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < this.#extra; i++) least = Math.min(least, terminal * volts[i]!);
    if (fault?.kind === 'leak') {
      const own = this.#share[fault.node]! / (1 + scan.nodeOhms[fault.node]! / fault.ohms);
      least = Math.min(least, terminal * own);
    }
    if (this.#charging !== null) {
      const before = charging;
      for (let i = 0; i < this.#watched.length; i++) {
        const { voltsAt, wires } = this.#watched[i]!;
        before[i] = voltsAt >= 0 ? 0 : this.#amps(scan, fault, wires);
      }
      this.#respond(this.#charging, fault);
      for (let i = 0; i < this.#watched.length; i++) {
        const { voltsAt, wires } = this.#watched[i]!;
        if (voltsAt >= 0) continue;
        charging[i] = (terminal * (this.#amps(this.#charging, fault, wires) - before[i]!)) / probeSiemensPerMetre;
      }
    }
    for (let i = 0; i < this.#watched.length; i++) {
      if (this.#watched[i]!.voltsAt < 0) readings[i]! += this.#ampsPerMetreVolt * charging[i]!;
    }
    return least;
  }

  /** Volts of the watched nodes for one volt between the terminals; returns the conductance that the source sees. */
  #respond(scan: Scan, fault: PlacedFault | null): number {
    const volts = this.#volts;
    if (fault === null) {
      const { volts: all } = scan.circuit.solve();
      for (let i = 0; i < volts.length; i++) volts[i] = all[scan.observed[i]!]!;
      return scan.circuit.solve().inputSiemens;
    }
    if (fault.kind === 'leak') return scan.leak(fault.node, 1 / fault.ohms, volts);
    return scan.branch(fault.branch, faultedSiemens(fault, scan.circuit.network.branchSiemens[fault.branch]!), volts);
  }

  #amps(scan: Scan, fault: PlacedFault | null, wires: Watched['wires']): number {
    const { branchSiemens } = scan.circuit.network;
    let amps = 0;
    for (let w = 0; w < wires.length; w++) {
      const { branch, from, to } = wires[w]!;
      const siemens =
        fault !== null && fault.kind !== 'leak' && fault.branch === branch
          ? faultedSiemens(fault, branchSiemens[branch]!)
          : branchSiemens[branch]!;
      amps += siemens * (this.#volts[from]! - this.#volts[to]!);
    }
    return amps;
  }
}
