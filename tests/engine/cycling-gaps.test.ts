import { Circuit, EARTH, gapVolts, NetworkBuilder, SourceCurve } from '@postvolt/core/engine';
import { describe, expect, test } from 'vitest';
import { expectLaws } from '../laws.js';

type Gap = readonly [a: number, b: number, volts: number, ohms: number];
interface Case {
  readonly leaks: readonly number[];
  readonly branches: readonly (readonly [a: number, b: number, siemens: number])[];
  readonly gaps: readonly Gap[];
  readonly curve: readonly (readonly [amps: number, volts: number])[];
}

// Found by trying 400 000 random networks: gaps whose states go round for ever where each pass goes the whole way.
const cases: readonly Case[] = [
  {
    leaks: [0.0008712393797139528, 0.2049814257298305],
    branches: [[0, 1, 0.004707073672843559]],
    gaps: [
      [1, 0, 93.43725442886353, 0.03837469986071002],
      [1, EARTH, 1369.4712296128273, 0.0041388951185520155],
      [0, 1, 2238.8705164194107, 0.014021815601316795],
      [0, EARTH, 873.8706037402153, 2.2234201664223923],
      [0, EARTH, 191.48847460746765, 0.10619091456356876],
    ],
    curve: [
      [0, 9000],
      [21.980666080489755, 5189.3479998689145],
      [72.51238156110048, 201.31585350260139],
    ],
  },
  {
    leaks: [0.009573268249489505, 0.0016626485912517902],
    branches: [[0, 1, 0.20208756304688824]],
    gaps: [
      [1, EARTH, 4516.613006591797, 0.0052582123504664735],
      [1, EARTH, 5428.5789504647255, 34.77693470785065],
      [1, EARTH, 918.5140877962112, 0.1656086367000692],
      [0, 1, 3476.7691418528557, 0.07993583291878949],
      [0, EARTH, 209.57008004188538, 0.6741645915084166],
    ],
    curve: [
      [0, 9000],
      [16.21819735504687, 6201.0653268080205],
      [258.0872692540288, 600.6865685246885],
    ],
  },
  {
    leaks: [0.003817248817912987, 0.0001393650776091001, 0.0006548968725123902],
    branches: [
      [0, 1, 0.028841375145358613],
      [1, 2, 39.86326114561658],
    ],
    gaps: [
      [1, EARTH, 3298.7325116991997, 0.0024496973545035496],
      [2, 0, 2180.254191160202, 0.008610987301249729],
      [0, 1, 2270.9382250905037, 0.12190993392585309],
      [0, EARTH, 66.72005355358124, 0.08483072154125633],
      [0, EARTH, 7741.422079503536, 0.001982181319759568],
      [2, EARTH, 285.9138250350952, 0.0023651037837631255],
    ],
    curve: [
      [0, 9000],
      [21.757197314873338, 6787.2848499100655],
      [61.533364690840244, 1720.7561542652547],
    ],
  },
];

describe('spark gaps that would go round for ever', () => {
  test.each(cases)('settle: network %#', ({ leaks, branches, gaps, curve }) => {
    const builder = new NetworkBuilder();
    for (const leak of leaks) builder.node(leak);
    for (const [a, b, siemens] of branches) builder.branch(a, b, siemens);
    for (const [a, b, volts, ohms] of gaps) builder.gap(a, b, volts, ohms);
    const network = builder.ports(0).build();
    const solution = new Circuit(network, new SourceCurve(curve)).solve();
    expectLaws(network, solution);
    solution.gapSign.forEach((sign, i) => {
      const [, , threshold] = gaps[i]!;
      const across = gapVolts(network, solution.volts, i);
      // By the rounding of potentials below 9 kV, no more.
      if (sign === 0) expect(Math.abs(across)).toBeLessThanOrEqual(threshold + 1e-8);
      else expect(sign * across).toBeGreaterThanOrEqual(threshold - 1e-8);
    });
  });
});
