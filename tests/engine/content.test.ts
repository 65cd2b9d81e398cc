import { EARTH, gapVolts, type Network, SourceCurve } from '@postvolt/core/engine';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Potentials, stepTowards } from '../../packages/core/src/engine/spark-gaps.js';
import { curvePoints, networks, runs } from './arbitrary.js';

/** ∫ I dV of a source from 0 V to those at its terminals: trapezoids between its knees, for it is straight there. */
function sourceContent(source: SourceCurve, volts: number): number {
  if (source.amps.length === 1) return 0;
  const [low, high] = [Math.min(0, volts), Math.max(0, volts)];
  const marks = [low, ...[...source.volts.subarray(1)].filter((v) => v > low && v < high), high].sort((a, b) => a - b);
  let sum = 0;
  for (let i = 1; i < marks.length; i++) {
    const [from, to] = [marks[i - 1]!, marks[i]!];
    sum += ((source.ampsAt(from) + source.ampsAt(to)) / 2) * (to - from);
  }
  return Math.sign(volts) * sum;
}

/** The network's content by its definition (G. Millar 1951): ∫ I dV over every element, the source's taken away. */
function content(network: Network, source: SourceCurve, { volts, terminalVolts }: Potentials): number {
  const { branchFrom, branchTo, branchSiemens, leakSiemens, gaps } = network;
  let sum = -sourceContent(source, terminalVolts);
  for (const [i, leak] of leakSiemens.entries()) sum += (leak * volts[i]! ** 2) / 2;
  for (const [e, g] of branchSiemens.entries()) sum += (g * (volts[branchFrom[e]!]! - volts[branchTo[e]!]!) ** 2) / 2;
  for (const [i, ohms] of gaps!.ohms.entries()) {
    const over = Math.max(0, Math.abs(gapVolts(network, volts, i)) - gaps!.volts[i]!);
    sum += over ** 2 / (2 * ohms);
  }
  return sum;
}

const potentials = fc.array(fc.double({ min: -20, max: 20, noNaN: true }), { minLength: 14, maxLength: 14 });

test('on the way from any state to any other, the step goes where the content is least', () => {
  let [stayed, stopped, arrived] = [0, 0, 0];
  fc.assert(
    fc.property(
      networks({ decades: 3, withGaps: true }),
      curvePoints,
      potentials,
      potentials,
      fc.boolean(),
      (network, points, fromVolts, toVolts, ideal) => {
        const source = ideal ? SourceCurve.ideal(10) : new SourceCurve(points);
        const { plus, minus } = network.ports;
        const state = (given: number[]): Potentials => {
          const volts = Float64Array.from(given.slice(0, network.nodeCount));
          const below = () => (minus === EARTH ? 0 : volts[minus]!);
          if (source.amps.length > 1) return { volts, terminalVolts: volts[plus]! - below() };
          // An ideal source holds its volts in every state.
          volts[plus] = below() + source.volts[0]!;
          return { volts, terminalVolts: source.volts[0]! };
        };
        const [from, to] = [state(fromVolts), state(toVolts)];
        const at = (t: number): Potentials => ({
          volts: from.volts.map((v, i) => v + t * (to.volts[i]! - v)),
          terminalVolts: from.terminalVolts + t * (to.terminalVolts - from.terminalVolts),
        });
        const reached = stepTowards(network, source, from, to);
        // The state reached lies on the way, terminals and all.
        const way = to.volts.map((v, i) => v - from.volts[i]!);
        const node = way.reduce((most, v, i) => (Math.abs(v) > Math.abs(way[most]!) ? i : most), 0);
        const t = way[node] === 0 ? 0 : (reached.volts[node]! - from.volts[node]!) / way[node]!;
        for (const [i, v] of at(t).volts.entries()) expect(Math.abs(reached.volts[i]! - v)).toBeLessThan(1e-9);
        expect(Math.abs(reached.terminalVolts - at(t).terminalVolts)).toBeLessThan(1e-9);
        // Nowhere on the way is it less, close by or far off.
        const ways = [0, 0.25, 0.5, 0.75, 1, ...[-1e-2, -1e-4, 1e-4, 1e-2].map((step) => t + step)];
        const along = ways.filter((way) => way >= 0 && way <= 1).map((way) => content(network, source, at(way)));
        const least = content(network, source, reached);
        const slack = 1e-12 * Math.max(...along.map(Math.abs), Math.abs(least));
        for (const value of along) expect(least).toBeLessThanOrEqual(value + slack);
        if (t === 0) stayed++;
        else if (t === 1) arrived++;
        else stopped++;
      },
    ),
    { numRuns: runs(500) },
  );
  expect(Math.min(stayed, arrived)).toBeGreaterThan(runs(20) / 2);
  expect(stopped).toBeGreaterThan(runs(100));
});
