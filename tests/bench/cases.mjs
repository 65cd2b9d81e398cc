// What is measured. Each case runs in a process of its own and returns rows for the table: what is timed, what it is
// held against, both in milliseconds, and the ratio that is aimed at.
import { analyse, Circuit, Factor, gradient, SelectedInverse, SourceCurve } from '../../packages/core/dist/engine.js';
import { medians } from './measure.mjs';
import { againstNative } from './native.mjs';
import * as networks from './networks.mjs';
import { againstBigNumbers, againstMathjs, againstNgspice, againstNgspiceWasm } from './peers.mjs';
import { changeAndAsk, demoFarm, wholeResult } from './plans.mjs';
import { spreadDraws } from './spread.mjs';
import { thomas, thomasFactor, thomasSolve } from './thomas.mjs';

const shapes = {
  ladder: { make: networks.ladder, title: 'ladder' },
  tree: { make: networks.tree, title: 'tree with tees' },
  grid: { make: networks.grid, title: 'grid of loops' },
  strands: { make: networks.twoStrands, title: 'two strands with cross leaks' },
};

const build = (shape, nodes, shuffled) => {
  const network = shapes[shape].make(nodes);
  return shuffled ? networks.shuffled(network) : network;
};

/** The assembled matrix of a ladder of as many unknowns, and a right side. */
function floor(unknowns) {
  const { leakSiemens, branchSiemens } = networks.ladder(unknowns);
  const off = new Float64Array(unknowns);
  off.set(branchSiemens);
  const diag = leakSiemens.map((leak, i) => leak + off[i] + (i > 0 ? off[i - 1] : 0));
  const rhs = Float64Array.from({ length: unknowns }, (_, i) => 1e-3 * (1 + (i % 7)));
  return {
    diag,
    off,
    rhs,
    ratio: new Float64Array(unknowns),
    pivot: new Float64Array(unknowns),
    x: new Float64Array(unknowns),
  };
}

function firstContact(network, amps, volts) {
  const factor = new Factor(analyse(network));
  factor.refactor(network.branchSiemens, network.leakSiemens);
  factor.solve(amps, volts);
}

const numericAndSolve = (shape, aim, nodes, shuffled = false) => ({
  name: `numeric + solve, ${shapes[shape].title}${shuffled ? ', shuffled' : ''}`,
  run(repeats) {
    const network = build(shape, nodes, shuffled);
    const { diag, off, rhs, ratio, x } = floor(network.nodeCount);
    const factor = new Factor(analyse(network));
    const { ours, theirs } = medians(
      {
        theirs: () => thomas(diag, off, rhs, ratio, x),
        ours() {
          factor.refactor(network.branchSiemens, network.leakSiemens);
          factor.solve(rhs, x);
        },
      },
      repeats,
    );
    return [{ nodes: network.nodeCount, ours, theirs, against: 'fused Thomas sweep', aim }];
  },
});

const first = (shape, nodes, shuffled = false) => ({
  name: `first contact, ${shapes[shape].title}${shuffled ? ', shuffled' : ''}`,
  run(repeats) {
    const network = build(shape, nodes, shuffled);
    const { diag, off, rhs, ratio, x } = floor(network.nodeCount);
    const { ours, theirs } = medians(
      { theirs: () => thomas(diag, off, rhs, ratio, x), ours: () => firstContact(network, rhs, x) },
      repeats,
    );
    return [{ nodes: network.nodeCount, ours, theirs, against: 'fused Thomas sweep', aim: 12 }];
  },
});

const resolve = (shape, nodes, aim) => ({
  name: `a new right side, ${shapes[shape].title}`,
  run(repeats) {
    const network = build(shape, nodes);
    const { diag, off, rhs, ratio, pivot, x } = floor(network.nodeCount);
    thomasFactor(diag, off, ratio, pivot);
    const factor = new Factor(analyse(network));
    factor.refactor(network.branchSiemens, network.leakSiemens);
    const { ours, theirs } = medians(
      { theirs: () => thomasSolve(ratio, pivot, rhs, x), ours: () => factor.solve(rhs, x) },
      repeats,
    );
    return [{ nodes: network.nodeCount, ours, theirs, against: 'Thomas forward and back pass', aim }];
  },
});

const drivingPoints = (shape, nodes) => ({
  name: `all driving-point resistances, ${shapes[shape].title}`,
  run(repeats) {
    const network = build(shape, nodes);
    const factor = new Factor(analyse(network));
    const inverse = new SelectedInverse(factor);
    const ohms = new Float64Array(network.nodeCount);
    const { ours, theirs } = medians(
      {
        theirs: () => factor.refactor(network.branchSiemens, network.leakSiemens),
        ours() {
          inverse.compute();
          inverse.nodeOhms(ohms);
        },
      },
      repeats,
    );
    return [{ nodes: network.nodeCount, ours, theirs, against: 'our numeric factorisation', aim: 1.5 }];
  },
});

const adjoint = (shape, nodes) => ({
  name: `gradient over all branches and leaks, ${shapes[shape].title}`,
  run(repeats) {
    const network = build(shape, nodes);
    const { rhs, x } = floor(network.nodeCount);
    const circuit = new Circuit(
      network,
      new SourceCurve([
        [0, 9800],
        [14, 7000],
        [42, 4200],
      ]),
    );
    circuit.solve();
    const far = network.nodeCount - 1;
    const into = gradient(circuit, far);
    const { ours, theirs } = medians(
      { theirs: () => circuit.factor.solve(rhs, x), ours: () => gradient(circuit, far, into) },
      repeats,
    );
    return [{ nodes: network.nodeCount, ours, theirs, against: 'our solve', aim: 2 }];
  },
});

/** Time a node at each size, against that at ten thousand nodes. */
const growth = (shape, sizes) => ({
  name: `growth, ${shapes[shape].title}`,
  run(repeats) {
    const found = sizes.map((nodes) => {
      const network = build(shape, nodes);
      const { rhs, x } = floor(network.nodeCount);
      const factor = new Factor(analyse(network));
      const turns = nodes > 300_000 ? Math.min(repeats, 30) : repeats;
      const { numeric } = medians(
        { numeric: () => factor.refactor(network.branchSiemens, network.leakSiemens) },
        turns,
      );
      const { contact } = medians({ contact: () => firstContact(network, rhs, x) }, turns);
      return { nodes: network.nodeCount, numeric, contact };
    });
    const [least, most] = [found[0], found.at(-1)];
    const scaled = most.nodes / least.nodes;
    const against = `${scaled.toFixed(0)} × the time at ${least.nodes} nodes`;
    return [
      { part: 'numeric', nodes: most.nodes, ours: most.numeric, theirs: scaled * least.numeric, against, aim: 1.5 },
      {
        part: 'first contact',
        nodes: most.nodes,
        ours: most.contact,
        theirs: scaled * least.contact,
        against,
        aim: 2.5,
      },
    ];
  },
});

/** Once, in a fresh process with cold code: the most that a program can have to wait, and the memory of the whole process. */
const million = (shape) => ({
  name: `a million nodes, once and cold, ${shapes[shape].title}`,
  once: true,
  run() {
    const network = build(shape, 1_000_000);
    const amps = new Float64Array(network.nodeCount);
    amps[0] = 1;
    const start = process.hrtime.bigint();
    firstContact(network, amps, amps);
    const ours = Number(process.hrtime.bigint() - start) / 1e6;
    const mebibytes = process.resourceUsage().maxRSS / 1024;
    return [
      { part: 'first contact', nodes: network.nodeCount, ours, theirs: 1000, against: 'a second', aim: 1 },
      {
        part: 'memory',
        unit: 'MiB',
        nodes: network.nodeCount,
        ours: mebibytes,
        theirs: 400,
        against: '400 MiB',
        aim: 1,
      },
    ];
  },
});

const size = 100_000;
export const cases = [
  numericAndSolve('ladder', 2, size),
  numericAndSolve('tree', 2, size),
  numericAndSolve('grid', 3.5, size),
  numericAndSolve('strands', 3, size),
  numericAndSolve('ladder', undefined, size, true),
  first('ladder', size),
  first('tree', size),
  first('grid', size),
  first('strands', size),
  first('ladder', size, true),
  first('tree', size, true),
  first('grid', size, true),
  first('strands', size, true),
  resolve('ladder', size, 1.5),
  resolve('tree', size),
  resolve('grid', size),
  resolve('strands', size),
  drivingPoints('ladder', size),
  drivingPoints('tree', size),
  drivingPoints('grid', size),
  drivingPoints('strands', size),
  adjoint('ladder', size),
  adjoint('tree', size),
  adjoint('grid', size),
  adjoint('strands', size),
  growth('ladder', [10_000, 1_000_000]),
  growth('strands', [10_000, 1_000_000]),
  million('ladder'),
  million('strands'),
  againstMathjs(networks.ladder(10_000), 'ladder'),
  againstMathjs(networks.twoStrands(10_000), 'two strands with cross leaks'),
  againstNgspiceWasm(20_000),
  againstNgspice(20_000),
  againstBigNumbers(),
  spreadDraws(),
  ...Object.values(shapes).map(({ make, title }) => againstNative(make, title, size)),
  wholeResult(100_000),
  changeAndAsk(36_145),
  demoFarm(),
];
