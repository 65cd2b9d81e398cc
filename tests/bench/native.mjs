// Sparse solvers in native code on the same matrices: KLU and CHOLMOD, by a small C program that is compiled here.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { analyse, Factor } from '../../packages/core/dist/engine.js';
import { assembled, largestDifference } from './peers.mjs';

const source = fileURLToPath(new URL('./native/solvers.c', import.meta.url));
const libraries = ['-I/usr/include/suitesparse', '-lklu', '-lcholmod', '-lsuitesparseconfig'];

/** Best of some repeats of our numeric pass and solve, as the C program takes the best of its own. */
function best(action, repeats) {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < repeats + 20; i++) {
    const start = process.hrtime.bigint();
    action();
    if (i >= 20) least = Math.min(least, Number(process.hrtime.bigint() - start) / 1e6);
  }
  return least;
}

/** KLU and CHOLMOD on a network: numeric pass and solve on a known graph, the best of the repeats on either side. */
export function againstNative(make, title, nodes) {
  return {
    name: `native sparse solvers, ${title}`,
    run(repeats) {
      const folder = mkdtempSync(join(tmpdir(), 'bench-'));
      try {
        const program = join(folder, 'solvers');
        const compiled = spawnSync('cc', ['-O3', '-march=native', source, '-o', program, ...libraries]);
        const network = make(nodes);
        const n = network.nodeCount;
        const right = Float64Array.from({ length: n }, (_, i) => 1e-3 * (1 + (i % 7)));
        const volts = new Float64Array(n);
        const factor = new Factor(analyse(network));
        const ours = best(() => {
          factor.refactor(network.branchSiemens, network.leakSiemens);
          factor.solve(right, volts);
        }, repeats);
        if (compiled.status !== 0)
          return [{ nodes: n, ours, against: 'no C compiler, KLU or CHOLMOD on this machine', note: 'not measured' }];
        const { values, index, ptr } = assembled(network, false);
        const parts = [Int32Array.of(n, values.length), Int32Array.from(ptr), Int32Array.from(index)];
        const bytes = [...parts, Float64Array.from(values), right].map((part) => Buffer.from(part.buffer));
        writeFileSync(join(folder, 'matrix'), Buffer.concat(bytes));
        const words = [join(folder, 'matrix'), String(repeats), join(folder, 'solutions')];
        const { status, stdout } = spawnSync(program, words, { encoding: 'utf8' });
        if (status !== 0) throw new Error(`solvers ended with ${status}`);
        const found = JSON.parse(stdout);
        const { buffer, byteOffset } = readFileSync(join(folder, 'solutions'));
        const solutions = new Float64Array(buffer.slice(byteOffset, byteOffset + 16 * n));
        return ['klu', 'cholmod'].map((name, i) => {
          const difference = largestDifference(volts, [...solutions.subarray(i * n, (i + 1) * n)]);
          if (!(difference < 1e-9)) throw new Error(`${name} differs by ${difference} of the largest volts`);
          const { symbolic, numeric, solve } = found[name];
          return {
            part: name === 'klu' ? 'KLU' : 'CHOLMOD',
            nodes: n,
            ours,
            theirs: numeric + solve,
            atLeast: 1,
            against: `numeric ${numeric.toFixed(1)} ms and solve ${solve.toFixed(1)} ms, after ${symbolic.toFixed(0)} ms of ordering; best of ${repeats}`,
            note: `volts differ by ${difference.toExponential(0)} of the largest`,
          };
        });
      } finally {
        rmSync(folder, { recursive: true });
      }
    },
  };
}
