import type { Circuit } from './circuit.js';
import { refuse } from './issue.js';
import { EARTH } from './network.js';
import type { OperatingPoint } from './source-curve.js';
import { SIDE } from './spark-gaps.js';
import { whatIf } from './what-if.js';

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

/** Places that are touched: place i lies between `a[i]` and `b[i]`, or earth where `b` is left out. */
interface Places {
  readonly a: ArrayLike<number>;
  readonly b?: ArrayLike<number>;
}

/**
 * Touches every node in turn with a resistance to earth, Ω: one for all or one a node, 0 (a dead short) and up.
 *
 * Exact, also where the touch moves the source across a knee of its curve or makes a spark gap fire or go out (held gaps stay as they are). Linear time
 * for each state of the gaps that some touch leads to.
 */
export function touchNodes(circuit: Circuit, ohms: number | Float64Array): Touches {
  const { nodeCount } = circuit.network;
  const nodes = { a: Int32Array.from({ length: nodeCount }, (_, node) => node) };
  return touchSettled(circuit, ohms, nodes, (held) => {
    const self = held.tiedInverse().nodeOhms(new Float64Array(nodeCount));
    return touch(held, ohms, self, held.share(), held.gapOffsetVolts());
  });
}

/** Touches every declared pair in turn with a resistance across it; otherwise as {@link touchNodes}. */
export function touchPairs(circuit: Circuit, ohms: number | Float64Array): Touches {
  const pairs = circuit.network.pairs ?? refuse('pairs', 'none', 'declared node pairs');
  const { a, b } = pairs;
  const across = (volts: Float64Array) => Float64Array.from(a, (node, i) => volts[node]! - volts[b[i]!]!);
  return touchSettled(circuit, ohms, pairs, (held) => {
    const self = held.tiedInverse().pairOhms(a, b, new Float64Array(a.length));
    const offset = held.gapOffsetVolts();
    return touch(held, ohms, self, across(held.share()), offset && across(offset));
  });
}

/** States of the spark gaps that are tried for all places at once; a place that none of them suits is solved by itself. */
const mostStates = 12;

/**
 * Touches every place with the spark gaps in the state that each touch leads to. Touches are linear while the gaps stay
 * as they are, so each state is tried for all places together, the one most places ask for next.
 */
function touchSettled(
  circuit: Circuit,
  ohms: number | Float64Array,
  places: Places,
  touchHeld: (held: Circuit) => Touches,
): Touches {
  const settled = touchHeld(circuit);
  if (!circuit.network.gaps || circuit.gapsHeld) return settled;
  const tried = new Set<string>();
  let waiting = Array.from(settled.amps, (_, place) => place);
  let held = circuit;
  let touches = settled;
  while (true) {
    tried.add(held.solve().gapSign.join());
    const asked = new Map<string, { readonly signs: Int8Array; count: number }>();
    const signsAfter = gapSignsAfter(held, touches, places);
    waiting = waiting.filter((place) => {
      const signs = signsAfter(place);
      if (signs === null) {
        for (const name of ['volts', 'amps', 'terminalVolts', 'segment'] as const)
          settled[name][place] = touches[name][place]!;
        return false;
      }
      const key = signs.join();
      const known = asked.get(key);
      if (known !== undefined) known.count++;
      else if (!tried.has(key)) asked.set(key, { signs, count: 1 });
      return true;
    });
    const [next] = [...asked.values()].sort((x, y) => y.count - x.count);
    if (next === undefined || tried.size >= mostStates) break;
    held = circuit.fork(next.signs);
    touches = touchHeld(held);
  }
  for (const place of waiting)
    touchAlone(circuit, typeof ohms === 'number' ? ohms : ohms[place]!, places, place, settled);
  return settled;
}

/** By place: the signs that the touched network's gaps ask for; null where they are those that it is solved with. */
function gapSignsAfter(held: Circuit, touches: Touches, { a, b }: Places): (place: number) => Int8Array | null {
  const gaps = held.network.gaps!;
  const { gapSign } = held.solve();
  const share = held.share();
  const offset = held.gapOffsetVolts();
  const across = (volts: ArrayLike<number>, from: number, to: number) => volts[from]! - (to === EARTH ? 0 : volts[to]!);
  // Potentials for one ampere through each gap, terminals tied: by reciprocity what a touch's ampere does to the gap.
  const columns = Array.from(gaps.a, (from, gap) => {
    const column = new Float64Array(held.network.nodeCount);
    column[from] = 1;
    if (gaps.b[gap] !== EARTH) column[gaps.b[gap]!] = -1;
    held.factor.solve(column, column, Infinity);
    return column;
  });
  return (place) => {
    let agrees = true;
    const signs = Int8Array.from(columns, (column, gap) => {
      const [from, to, threshold] = [gaps.a[gap]!, gaps.b[gap]!, gaps.volts[gap]!];
      const before = across(share, from, to) * touches.terminalVolts[place]! + (offset ? across(offset, from, to) : 0);
      const taken = across(column, a[place]!, b?.[place] ?? EARTH) * touches.amps[place]!;
      const volts = before - taken;
      const sign = Math.abs(volts) > threshold ? Math.sign(volts) : 0;
      const over = gapSign[gap] === 0 ? Math.abs(volts) - threshold : threshold - gapSign[gap]! * volts;
      if (over > SIDE * (threshold + Math.abs(before) + Math.abs(taken))) agrees = false;
      return sign;
    });
    return agrees ? null : signs;
  };
}

/** Stands for a dead short where a touch is solved as a branch of its own, Ω. */
const shortOhms = 1e-9;

/** One place solved by itself, gaps and all. */
function touchAlone(circuit: Circuit, load: number, { a, b }: Places, place: number, into: Touches): void {
  const siemens = 1 / Math.max(load, shortOhms);
  const ends = [a[place]!, b?.[place] ?? EARTH] as const;
  const at = ends[1] === EARTH ? [ends[0]] : ends;
  const { volts, terminalVolts, segment } = whatIf(circuit, [{ kind: 'add', a: ends[0], b: ends[1], siemens }], at);
  const across = volts[0]! - (volts[1] ?? 0);
  into.volts[place] = load === 0 ? 0 : across;
  into.amps[place] = across * siemens;
  into.terminalVolts[place] = terminalVolts;
  into.segment[place] = segment;
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
