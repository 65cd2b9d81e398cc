import type { Circuit } from '../engine/circuit.js';
import { EARTH } from '../engine/network.js';
import { touchNodes, touchPairs } from '../engine/touch.js';
import { whatIf } from '../engine/what-if.js';
import type { FenceNetwork } from '../network/network.js';

/** What the plan's animal gets at every node, by the way back that gives it more: the soil, or the grounded strand. */
export interface AnimalTouches {
  /** Across body and hide, without what the soil under the feet takes. */
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  /** Of body and hide in the animal's whole path, feet and soil included; 1 between two strands. */
  readonly bodyShare: Float64Array;
}

/** A solved fence, and the siemens of its formulas. */
interface Touched {
  readonly network: FenceNetwork;
  readonly circuit: Circuit;
  readonly formulaSiemens: Float64Array;
}

/** Touches every strand in turn with the plan's animal; exact across the knees of the energizer's curve and beside sparks. */
export function touchEverywhere({ network, circuit, formulaSiemens }: Touched): AnimalTouches {
  const { layout, animalToEarth, animalBetweenStrands } = network;
  const bodyOhms = 1 / formulaSiemens[animalBetweenStrands]!;
  const ohms = new Float64Array(layout.nodeCount).fill(1 / formulaSiemens[animalToEarth[0]![0]!]!);
  layout.runs.forEach((run, r) => {
    const formulas = animalToEarth[r]!;
    for (const nodes of run.nodes)
      for (let i = 0; i < nodes.length; i++) ohms[nodes[i]!] = 1 / formulaSiemens[formulas[i]!]!;
  });
  const { amps } = touchNodes(circuit, ohms);
  const bodyShare = ohms.map((path) => bodyOhms / path);
  const { pairs } = circuit.network;
  if (pairs !== undefined && pairs.a.length > 0) {
    const between = touchPairs(circuit, bodyOhms);
    pairs.a.forEach((node, p) => {
      if (between.amps[p]! <= amps[node]!) return;
      amps[node] = between.amps[p]!;
      bodyShare[node] = 1;
    });
  }
  return { volts: amps.map((through) => through * bodyOhms), amps, bodyShare };
}

/** Volts across body and hide of the plan's animal that touches one node, as `touchEverywhere` has them. */
export function touchOne({ network, circuit, formulaSiemens }: Touched, node: number): number {
  const { layout, animalToEarth, animalBetweenStrands } = network;
  const bodySiemens = formulaSiemens[animalBetweenStrands]!;
  let pathSiemens = formulaSiemens[animalToEarth[0]![0]!]!;
  layout.runs.forEach((run, r) => {
    for (const nodes of run.nodes) {
      const i = nodes.indexOf(node);
      if (i >= 0) pathSiemens = formulaSiemens[animalToEarth[r]![i]!]!;
    }
  });
  const toEarth = whatIf(circuit, [{ kind: 'add', a: node, b: EARTH, siemens: pathSiemens }], [node]);
  let amps = toEarth.volts[0]! * pathSiemens;
  const { a, b } = circuit.network.pairs!;
  for (let p = a.indexOf(node); p >= 0; p = a.indexOf(node, p + 1)) {
    const pair = [node, b[p]!];
    const { volts } = whatIf(circuit, [{ kind: 'add', a: node, b: b[p]!, siemens: bodySiemens }], pair);
    amps = Math.max(amps, (volts[0]! - volts[1]!) * bodySiemens);
  }
  return amps / bodySiemens;
}
