// General programs on the same networks in the same process.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Simulation } from 'eecircuit-engine';
import { BigNumberDependencies, bignumberDependencies, create, lusolve, SparseMatrix, slu } from 'mathjs';
import { analyse, Factor } from '../../packages/core/dist/engine.js';
import { median, medians } from './measure.mjs';
import { ladder, seeded } from './networks.mjs';

const emfVolts = 8000;
const sourceOhms = 300;

function ours(network, amps, volts) {
  const factor = new Factor(analyse(network));
  factor.refactor(network.branchSiemens, network.leakSiemens);
  factor.solve(amps, volts, 1 / sourceOhms);
}

/** mathjs: sparse LU, then the triangular solves, on the assembled matrix; with the faster of its natural and its own order. */
export function againstMathjs(network, title) {
  return {
    name: `mathjs slu + lusolve, ${title}`,
    run(repeats) {
      const n = network.nodeCount;
      const matrix = new SparseMatrix(assembled(network));
      const amps = new Array(n).fill(0);
      amps[network.ports.plus] = emfVolts / sourceOhms;
      if (network.ports.minus >= 0) amps[network.ports.minus] = -emfVolts / sourceOhms;
      const right = Float64Array.from(amps);
      const volts = new Float64Array(n);
      const factor = new Factor(analyse(network));
      let theirVolts;
      const solveBy = (order) => () => {
        theirVolts = lusolve(slu(matrix, order, 0.1), amps);
      };
      const found = medians(
        {
          natural: solveBy(0),
          ordered: solveBy(1),
          contact: () => ours(network, right, volts),
          numeric() {
            factor.refactor(network.branchSiemens, network.leakSiemens);
            factor.solve(right, volts, 1 / sourceOhms);
          },
        },
        Math.min(repeats, 31),
      );
      const difference = largestDifference(volts, theirVolts.toArray().flat());
      const theirs = Math.min(found.natural, found.ordered);
      const order = found.natural < found.ordered ? 'natural order' : 'its own order';
      const against = `sparse LU, factor and solve in ${order}`;
      const note = `volts differ by ${difference.toExponential(0)} of the largest`;
      return [
        { part: 'factor and solve', nodes: n, ours: found.numeric, theirs, against, atLeast: 80, note },
        { part: 'ours from first contact', nodes: n, ours: found.contact, theirs, against },
      ];
    },
  };
}

/** The whole matrix of a network, column by column; with the source's conductance between the terminals, or without. */
export function assembled({ nodeCount, branchFrom, branchTo, branchSiemens, leakSiemens, ports }, withSource = true) {
  const columns = Array.from({ length: nodeCount }, () => new Map());
  const add = (i, j, g) => columns[j].set(i, (columns[j].get(i) ?? 0) + g);
  const conductance = (a, b, g) => {
    add(a, a, g);
    if (b < 0) return;
    add(b, b, g);
    add(a, b, -g);
    add(b, a, -g);
  };
  leakSiemens.forEach((g, i) => {
    add(i, i, g);
  });
  branchSiemens.forEach((g, e) => {
    conductance(branchFrom[e], branchTo[e], g);
  });
  if (withSource) conductance(ports.plus, ports.minus, 1 / sourceOhms);
  const [values, index, ptr] = [[], [], [0]];
  for (const column of columns) {
    for (const [row, value] of [...column].sort(([a], [b]) => a - b)) {
      index.push(row);
      values.push(value);
    }
    ptr.push(values.length);
  }
  return { values, index, ptr, size: [nodeCount, nodeCount] };
}

export function largestDifference(ourVolts, theirVolts) {
  let largest = 0;
  let difference = 0;
  ourVolts.forEach((v, i) => {
    largest = Math.max(largest, Math.abs(v));
    difference = Math.max(difference, Math.abs(v - theirVolts[i]));
  });
  return difference / largest;
}

/** A SPICE deck of a network behind a Thévenin source. */
function deckOf({ branchFrom, branchTo, branchSiemens, leakSiemens, ports }) {
  const name = (node) => (node < 0 ? '0' : `n${node}`);
  const lines = [
    'a ladder',
    `Vemf emf ${name(ports.minus)} ${emfVolts}`,
    `Rsource emf ${name(ports.plus)} ${sourceOhms}`,
  ];
  leakSiemens.forEach((g, i) => {
    lines.push(`Rleak${i} ${name(i)} 0 ${1 / g}`);
  });
  branchSiemens.forEach((g, e) => {
    lines.push(`Rspan${e} ${name(branchFrom[e])} ${name(branchTo[e])} ${1 / g}`);
  });
  return lines;
}

/** What ngspice is held against: our reading of the same numbers from arrays, ordering, factoring and solving. */
function oursOn(network, repeats) {
  const amps = new Float64Array(network.nodeCount);
  amps[network.ports.plus] = emfVolts / sourceOhms;
  const volts = new Float64Array(network.nodeCount);
  const found = medians({ ours: () => ours(network, amps, volts) }, repeats);
  return { ...found, volts };
}

/** ngspice in WebAssembly: a fresh simulator a deck, since it keeps data of earlier ones. Its time includes reading the deck. */
export function againstNgspiceWasm(nodes) {
  return {
    name: 'ngspice in WebAssembly (eecircuit-engine), ladder',
    async run(repeats) {
      const network = ladder(nodes);
      const deck = [...deckOf(network), '.options reltol=1e-9 gmin=1e-15', '.op', '.end', ''].join('\n');
      const mine = oursOn(network, repeats);
      const times = [];
      let result;
      for (let i = 0; i < 3; i++) {
        const simulation = new Simulation();
        await simulation.start();
        simulation.setNetList(deck);
        const start = process.hrtime.bigint();
        result = await simulation.runSim();
        times.push(Number(process.hrtime.bigint() - start) / 1e6);
        const errors = simulation.getError();
        if (errors.length > 0)
          return [{ nodes, ours: mine.ours, against: 'whole run', note: `it fails: ${errors[0]}` }];
      }
      const theirs = new Map(result.data.map(({ name, values }) => [name, values[0]]));
      const difference = largestDifference(
        mine.volts,
        Array.from(mine.volts, (_, i) => theirs.get(`v(n${i})`)),
      );
      return [
        {
          nodes,
          ours: mine.ours,
          theirs: median(times),
          against: 'whole run, reading the deck included (ours: order, factor, solve); 3 repeats',
          note: `volts differ by ${difference.toExponential(0)} of the largest`,
        },
      ];
    },
  };
}

/** ngspice as installed on the machine, run in batch mode; its own report of the time of the analysis, and of the whole run. */
export function againstNgspice(nodes) {
  return {
    name: 'ngspice, native, ladder',
    run(repeats) {
      const network = ladder(nodes);
      const mine = oursOn(network, repeats);
      if (spawnSync('ngspice', ['--version']).error) {
        return [{ nodes, ours: mine.ours, against: 'not installed on this machine', note: 'not measured' }];
      }
      const folder = mkdtempSync(join(tmpdir(), 'bench-'));
      const file = join(folder, 'ladder.cir');
      const far = network.nodeCount - 1;
      const control = ['.control', 'op', `print v(n${far})`, 'rusage elapsed', '.endc'];
      writeFileSync(file, [...deckOf(network), '.options reltol=1e-9 gmin=1e-15', ...control, '.end', ''].join('\n'));
      const whole = [];
      let output = '';
      for (let i = 0; i < 5; i++) {
        const start = process.hrtime.bigint();
        output = spawnSync('ngspice', ['-b', file], { encoding: 'utf8', maxBuffer: 1 << 28 }).stdout;
        whole.push(Number(process.hrtime.bigint() - start) / 1e6);
      }
      rmSync(folder, { recursive: true });
      const volts = Number(new RegExp(`v\\(n${far}\\) = (\\S+)`).exec(output)?.[1]);
      const difference = Math.abs(volts - mine.volts[far]) / emfVolts;
      const note = Number.isNaN(volts)
        ? `it finds no operating point: ${/^.*(?:singular|Error|error).*$/m.exec(output)?.[0] ?? 'it says nothing'}`
        : `far end differs by ${difference.toExponential(0)} of the source`;
      return [
        {
          nodes,
          ours: mine.ours,
          theirs: median(whole),
          against: 'whole process: start, reading the deck, operating point (ours: order, factor, solve); 5 repeats',
          note,
        },
      ];
    },
  };
}

/** Digits of the worst node of small, stiff random networks, against elimination in 50-digit arithmetic. */
export function againstBigNumbers() {
  return {
    name: 'digits of every node, conductances over eighteen decades',
    once: true,
    run() {
      const math = create({ BigNumberDependencies, bignumberDependencies }, { number: 'BigNumber', precision: 50 });
      const random = seeded(11);
      let worst = 0;
      const count = 200;
      for (let i = 0; i < count; i++) {
        const n = 3 + Math.floor(7 * random());
        const value = () => 10 ** (18 * random() - 9);
        const ends = Array.from({ length: n - 1 }, (_, k) => [k + 1, Math.floor(random() * (k + 1))]);
        for (let e = 0; e < n; e++) {
          const a = Math.floor(random() * n);
          ends.push([a, (a + 1 + Math.floor(random() * (n - 1))) % n]);
        }
        const network = {
          nodeCount: n,
          branchFrom: Int32Array.from(ends, ([a]) => a),
          branchTo: Int32Array.from(ends, ([, b]) => b),
          branchSiemens: Float64Array.from(ends, value),
          leakSiemens: Float64Array.from({ length: n }, (_, k) => (k === 0 || random() < 0.5 ? value() : 0)),
        };
        const volts = new Float64Array(n);
        volts[n - 1] = 1;
        const factor = new Factor(analyse(network));
        factor.refactor(network.branchSiemens, network.leakSiemens);
        factor.solve(volts, volts);
        preciseVolts(math, network, n - 1).forEach((exact, node) => {
          worst = Math.max(worst, exact.minus(volts[node]).div(exact).abs().toNumber());
        });
      }
      const against = `50-digit arithmetic (mathjs BigNumber), ${count} random networks`;
      return [{ part: 'worst', unit: 'digits', ours: -Math.log10(worst), theirs: 12, against, atMost: 1 }];
    },
  };
}

function preciseVolts(math, { nodeCount: n, branchFrom, branchTo, branchSiemens, leakSiemens }, source) {
  const big = (value) => math.bignumber(value);
  const rows = Array.from({ length: n }, (_, i) =>
    Array.from({ length: n + 1 }, (_, j) => big(j === n && i === source ? 1 : 0)),
  );
  const add = (i, j, g) => {
    rows[i][j] = rows[i][j].plus(g);
  };
  leakSiemens.forEach((g, i) => {
    add(i, i, big(g));
  });
  branchSiemens.forEach((siemens, e) => {
    const [a, b, g] = [branchFrom[e], branchTo[e], big(siemens)];
    add(a, a, g);
    add(b, b, g);
    add(a, b, g.negated());
    add(b, a, g.negated());
  });
  for (let k = 0; k < n; k++) {
    for (let i = k + 1; i < n; i++) {
      const ratio = rows[i][k].div(rows[k][k]);
      for (let j = k; j <= n; j++) rows[i][j] = rows[i][j].minus(ratio.times(rows[k][j]));
    }
  }
  const volts = [];
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i][n];
    for (let j = i + 1; j < n; j++) sum = sum.minus(rows[i][j].times(volts[j]));
    volts[i] = sum.div(rows[i][i]);
  }
  return volts;
}
