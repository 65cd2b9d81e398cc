import type { Circuit } from './circuit.js';
import { refuse } from './issue.js';
import type { OperatingPoint } from './source-curve.js';

/** What stands across, and flows through, a resistance put at each place in turn; every array has one entry a place. */
export interface Touches {
  /** Volts across the resistance: node over earth, or pair's a over b. */
  readonly volts: Float64Array;
  /** Amps through it. */
  readonly amps: Float64Array;
  /** Volts between the source's terminals meanwhile. */
  readonly terminalVolts: Float64Array;
  /** Segment of the source's curve meanwhile. */
  readonly segment: Int32Array;
}

/**
 * Touches every node in turn with a resistance to earth, Ω: one for all or one a node, 0 (a dead short) and up.
 *
 * Exact, also where the touch moves the source across a knee of its curve; spark gaps stay as they are. Linear time.
 */
export function touchNodes(circuit: Circuit, ohms: number | Float64Array): Touches {
  const self = circuit.tiedInverse().nodeOhms(new Float64Array(circuit.network.nodeCount));
  return touch(circuit, ohms, self, circuit.share(), circuit.gapOffsetVolts());
}

/** Touches every declared pair in turn with a resistance across it; otherwise as {@link touchNodes}. */
export function touchPairs(circuit: Circuit, ohms: number | Float64Array): Touches {
  const pairs = circuit.network.pairs ?? refuse('pairs', 'none', 'declared node pairs');
  const { a, b } = pairs;
  const self = circuit.tiedInverse().pairOhms(a, b, new Float64Array(a.length));
  const across = (volts: Float64Array) => Float64Array.from(a, (node, i) => volts[node]! - volts[b[i]!]!);
  const offset = circuit.gapOffsetVolts();
  return touch(circuit, ohms, self, across(circuit.share()), offset && across(offset));
}

/** `self`, `share` and `offset` per place: driving-point resistance and volts with the terminals tied; volts per terminal volt. */
function touch(
  circuit: Circuit,
  ohms: number | Float64Array,
  self: Float64Array,
  share: Float64Array,
  offset: Float64Array | undefined,
): Touches {
  const count = self.length;
  if (typeof ohms !== 'number' && ohms.length !== count) refuse('ohms.length', ohms.length, String(count));
  const touches = {
    volts: new Float64Array(count),
    amps: new Float64Array(count),
    terminalVolts: new Float64Array(count),
    segment: new Int32Array(count),
  };
  const { inputSiemens } = circuit.solve();
  const offsetAmps = circuit.gapOffsetAmps();
  const { source } = circuit;
  const point: OperatingPoint = { volts: 0, amps: 0, segment: 0 };
  for (let i = 0; i < count; i++) {
    const load = typeof ohms === 'number' ? ohms : ohms[i]!;
    if (!(load >= 0 && load < Infinity)) refuse(`ohms[${i}]`, load, 'a finite resistance, 0 ohms or more');
    // With the terminals held at U the place is a source of share · U + offset behind self; its current reaches the
    // source in the proportion of share (reciprocity). So the source sees one conductance more, and meets its curve there.
    const loop = load + self[i]!;
    const sigma = share[i]!;
    const own = offset ? offset[i]! : 0;
    let amps = 0;
    if (loop > 0) {
      source.meet(inputSiemens + (sigma * sigma) / loop, offsetAmps - (sigma * own) / loop, point);
      amps = (sigma * point.volts + own) / loop;
    } else if (sigma !== 0) {
      // A dead short right at the terminals takes all that the source can give: `Infinity` of an ideal one.
      point.volts = 0;
      point.segment = source.ohms.length - 1;
      amps = (source.ampsAt(0) + offsetAmps) / sigma;
    }
    touches.amps[i] = amps;
    touches.volts[i] = load === 0 ? 0 : load * amps;
    touches.terminalVolts[i] = point.volts;
    touches.segment[i] = point.segment;
  }
  return touches;
}
