import { Circuit, EARTH, type Network, SourceCurve } from '@postvolt/core/engine';
import fc from 'fast-check';
import { lusolve, type Matrix as MathMatrix, sparse } from 'mathjs';
import { expect, test } from 'vitest';
import { expectLaws } from '../laws.js';
import { simulate } from '../support/circuit-simulator.js';
import { networks, runs } from './arbitrary.js';
import { denseVolts, nodalMatrix } from './dense.js';

// General programs on the same networks, not stiff: four decades of conductance.
const mild = networks({ decades: 4, mostNodes: 40 });
const [emfVolts, sourceOhms] = [8000, 300];

function ours(network: Network): Float64Array {
  const solution = new Circuit(network, SourceCurve.thevenin(emfVolts, sourceOhms)).solve();
  expectLaws(network, solution);
  return solution.volts;
}

test('a dense LU (ml-matrix) finds the same volts', () => {
  fc.assert(
    fc.property(mild, (network) => {
      const volts = ours(network);
      denseVolts(network, emfVolts, sourceOhms).forEach((theirs, i) => {
        // Four decades cost it some six digits of sixteen.
        expect(Math.abs(volts[i]! - theirs)).toBeLessThanOrEqual(1e-9 * emfVolts);
      });
    }),
  );
});

test('a sparse LU (mathjs) finds the same volts', () => {
  fc.assert(
    fc.property(mild, (network) => {
      const { plus, minus } = network.ports;
      const matrix = sparse(nodalMatrix(network, [[plus, minus, 1 / sourceOhms]]).to2DArray()) as MathMatrix;
      const amps = new Array<number>(network.nodeCount).fill(0);
      amps[plus] = emfVolts / sourceOhms;
      if (minus !== EARTH) amps[minus] = -emfVolts / sourceOhms;
      const theirs = (lusolve(matrix, amps) as MathMatrix).toArray() as number[][];
      ours(network).forEach((v, i) => {
        expect(Math.abs(v - theirs[i]![0]!)).toBeLessThanOrEqual(1e-9 * emfVolts);
      });
    }),
    { numRuns: runs(60) },
  );
});

test('a circuit simulator (ngspice, through eecircuit-engine) finds the same volts', { timeout: 300_000 }, async () => {
  const samples = fc.sample(networks({ decades: 4, mostNodes: 60 }), { seed: 7, numRuns: 200 });
  const largest = samples.sort((a, b) => b.nodeCount - a.nodeCount).slice(0, 3);
  for (const [i, network] of largest.entries()) {
    const simulated = await simulate(deck(network, `random network ${i}`));
    ours(network).forEach((v, node) => {
      // It iterates to reltol, here 1e-9, of each voltage.
      expect(Math.abs(v - simulated.get(`n${node}`)!)).toBeLessThanOrEqual(1e-7 * emfVolts);
    });
  }
});

/** A SPICE deck of a network behind a Thévenin source. */
function deck(network: Network, title: string): string {
  const { plus, minus } = network.ports!;
  const name = (node: number) => (node === EARTH ? '0' : `n${node}`);
  const resistors: string[] = [];
  const add = (a: number, b: number, siemens: number) => {
    if (siemens > 0) resistors.push(`R${resistors.length} ${name(a)} ${name(b)} ${1 / siemens}`);
  };
  network.leakSiemens.forEach((g, node) => {
    add(node, EARTH, g);
  });
  network.branchSiemens.forEach((g, e) => {
    add(network.branchFrom[e]!, network.branchTo[e]!, g);
  });
  return [
    title,
    `Vemf emf ${name(minus)} ${emfVolts}`,
    `Rsource emf ${name(plus)} ${sourceOhms}`,
    ...resistors,
    '.options reltol=1e-9 gmin=1e-15',
    '.op',
    '.end',
    '',
  ].join('\n');
}
