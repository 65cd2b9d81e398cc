// One network, many questions: the circuit is ordered once, and each change costs a numeric pass.
//   node examples/change-and-solve-again.mjs
import { kindCode, parsePlan, solveFence, strandNode } from '@postvolt/core';
import { drivingPoints, EARTH, gradient, whatIf } from '@postvolt/core/engine';
import { scenario } from '@postvolt/scenarios';
import { parse } from 'yaml';

const plan = parsePlan(parse(scenario('demo farm').plan));
const wet = plan.conditions.find(({ id }) => id === 'wet spring');
const { fence, circuit, map, siemens } = solveFence(plan, wet);
const corner = strandNode(fence.layout, { run: 'east', post: 132, strand: 'top' });
const say = (what, volts) => console.log(`${what.padEnd(44)} ${(volts / 1000).toFixed(2)} kV at the corner`);
say('as planned', circuit.solve().volts[corner]);

// Twice the ground system's conductance.
const ground = fence.elements.kind.indexOf(kindCode['ground system']);
const node = fence.elements.nodeA[ground];
circuit.setLeakSiemens(node, circuit.network.leakSiemens[node] + siemens[ground]);
say('with half the ground resistance', circuit.solve().volts[corner]);

// A branch on the wire at one post, without factoring again.
const post = strandNode(fence.layout, { run: 'north 1', post: 20, strand: 'top' });
const fault = whatIf(circuit, [{ kind: 'add', a: post, b: EARTH, siemens: 1 / 500 }]);
say('with a 500 Ω leak half a mile away, besides', fault.volts[corner]);

const { perBranchSiemens } = gradient(circuit, corner);
console.log(`driving-point resistance there: ${drivingPoints(circuit).nodeOhms[corner].toFixed(0)} Ω;`);
console.log(
  `${perBranchSiemens.length} derivatives, one for every branch, by one solve; ${map.branchOf.length} elements in all`,
);
