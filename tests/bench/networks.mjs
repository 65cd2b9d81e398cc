// Networks of about n nodes, as the engine's arrays: fence-like values, seeded, ports from the first node to earth.
import { EARTH } from '../../packages/core/dist/engine.js';

/** A small seeded generator of numbers from 0 to 1 (a linear congruence modulo 2³²). */
export function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

function network(leaks, from, to, siemens, ports = { plus: 0, minus: EARTH }) {
  return {
    nodeCount: leaks.length,
    branchFrom: Int32Array.from(from),
    branchTo: Int32Array.from(to),
    branchSiemens: Float64Array.from(siemens),
    leakSiemens: Float64Array.from(leaks),
    ports,
  };
}

// Half an ohm to two ohms a span, ten kilohms to ten megohms a post.
const span = (random) => 0.5 + 1.5 * random();
const leak = (random) => 10 ** (-7 + 3 * random());

/** One strand, post after post. */
export function ladder(n, seed = 1) {
  const random = seeded(seed);
  const [leaks, from, to, siemens] = [[], [], [], []];
  for (let i = 0; i < n; i++) {
    leaks.push(leak(random));
    if (i > 0) {
      from.push(i - 1);
      to.push(i);
      siemens.push(span(random));
    }
  }
  return network(leaks, from, to, siemens);
}

/** A strand with tees: every run of some 20 to 200 posts starts at a random post so far. */
export function tree(n, seed = 2) {
  const random = seeded(seed);
  const [leaks, from, to, siemens] = [[leak(random)], [], [], []];
  let left = 0;
  for (let i = 1; i < n; i++) {
    let parent = i - 1;
    if (left-- === 0) {
      parent = Math.floor(random() * i);
      left = 20 + Math.floor(180 * random());
    }
    leaks.push(leak(random));
    from.push(parent);
    to.push(i);
    siemens.push(span(random));
  }
  return network(leaks, from, to, siemens);
}

/** A square grid of paddocks, each side a run of 50 posts between corner posts. */
export function grid(n, seed = 3) {
  const random = seeded(seed);
  const posts = 50;
  const side = Math.max(2, Math.round(Math.sqrt(n / (2 * posts + 1))));
  const [leaks, from, to, siemens] = [[], [], [], []];
  for (let i = 0; i < side * side; i++) leaks.push(leak(random));
  const run = (a, b) => {
    let at = a;
    for (let p = 0; p <= posts; p++) {
      const next = p < posts ? leaks.push(leak(random)) - 1 : b;
      from.push(at);
      to.push(next);
      siemens.push(span(random));
      at = next;
    }
  };
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      if (x + 1 < side) run(y * side + x, y * side + x + 1);
      if (y + 1 < side) run(y * side + x, (y + 1) * side + x);
    }
  }
  return network(leaks, from, to, siemens);
}

/** A hot strand over a grounded one with a cross leak at every post; the source between their first posts. */
export function twoStrands(n, seed = 4) {
  const random = seeded(seed);
  const posts = n >> 1;
  const [leaks, from, to, siemens] = [[], [], [], []];
  for (let i = 0; i < posts; i++) {
    leaks.push(leak(random), i % 100 === 0 ? 0.02 : leak(random));
    for (const strand of [0, 1]) {
      if (i === 0) continue;
      from.push(2 * i - 2 + strand);
      to.push(2 * i + strand);
      siemens.push(span(random));
    }
    from.push(2 * i);
    to.push(2 * i + 1);
    siemens.push(leak(random));
  }
  return network(leaks, from, to, siemens, { plus: 0, minus: 1 });
}

/** The same network with its nodes and branches numbered at random. */
export function shuffled(source, seed = 5) {
  const random = seeded(seed);
  const permutation = (count) => {
    const order = Int32Array.from({ length: count }, (_, i) => i);
    for (let i = count - 1; i > 0; i--) {
      const j = Math.floor(random() * (i + 1));
      [order[i], order[j]] = [order[j], order[i]];
    }
    return order;
  };
  const node = permutation(source.nodeCount);
  const branch = permutation(source.branchFrom.length);
  const leakSiemens = new Float64Array(source.nodeCount);
  source.leakSiemens.forEach((value, i) => {
    leakSiemens[node[i]] = value;
  });
  return {
    nodeCount: source.nodeCount,
    branchFrom: Int32Array.from(branch, (e) => node[source.branchFrom[e]]),
    branchTo: Int32Array.from(branch, (e) => node[source.branchTo[e]]),
    branchSiemens: Float64Array.from(branch, (e) => source.branchSiemens[e]),
    leakSiemens,
    ports: { plus: node[source.ports.plus], minus: source.ports.minus === EARTH ? EARTH : node[source.ports.minus] },
  };
}
