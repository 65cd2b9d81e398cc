// One network, many questions: the circuit is ordered once, and each change costs a numeric pass.
//   node examples/change-and-solve-again.mjs
import { openFence, parsePlan, putFault, setSwitch, setValue, strandNode, verdictOf } from '@postvolt/core';
import { drivingPoints, gradient } from '@postvolt/core/engine';
import { scenario } from '@postvolt/scenarios';
import { parse } from 'yaml';

const plan = parsePlan(parse(scenario('demo farm').plan));
const fence = openFence(plan, 'wet spring');
const corner = strandNode(fence.layout, { run: 'east', post: 132, strand: 'top' });
const say = (what, { volts }) =>
  console.log(`${what.padEnd(44)} ${(volts[corner] / 1000).toFixed(2)} kV at the corner`);
say('as planned', fence);

// The rods stand in wetter ground: half the ohm-metres at their depth. What is tried on a fork leaves the fence as it is.
const wetter = fence.fork();
const { key, estimate } = fence.network.parameters.find(({ name }) => name.endsWith('at rod depth'));
setValue(wetter, key, estimate.typical / 2);
say('with half the ground resistance', wetter);

// A branch on the wire at one post, besides.
putFault(wetter, { kind: 'to earth', run: 'north 1', post: 20, strand: 'top', ohms: 500 });
say('with a 500 Ω leak half a mile away, besides', wetter);

// A cut-out switch opened: the verdict is asked for without the results of the posts.
setSwitch(fence, plan.switches[0].id, 'open');
console.log(verdictOf(fence).sentence);

const { perBranchSiemens } = gradient(fence.circuit, corner);
console.log(`driving-point resistance there: ${drivingPoints(fence.circuit).nodeOhms[corner].toFixed(0)} Ω;`);
console.log(
  `${perBranchSiemens.length} derivatives, one for every branch, by one solve; ${fence.siemens.length} elements in all`,
);
