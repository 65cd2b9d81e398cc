import type { ResolvedPlan } from '@postvolt/core';
import { openFence } from '@postvolt/core';
import { buildNetwork, formulaValues, layOut } from '@postvolt/core/network';
import { spread } from '@postvolt/core/studies';
import type { Estimate } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { FormulaProgram } from '../../packages/core/src/network/formula-program.js';
import { normalQuantile } from '../../packages/core/src/studies/spread/normal-quantile.js';
import { uncertainValues } from '../../packages/core/src/studies/spread/uncertain.js';
import { expectLaws } from '../laws.js';
import { earthReturnAt5kHz, exact, plainPlan, plainValues, strand } from '../support/fence.js';

const within = (typical: number, low: number, high: number, unit = '1'): Estimate => ({
  ...exact(typical, unit),
  low,
  high,
});

type Overrides = ResolvedPlan['stretches'][number]['set'];
const nothing: Overrides = {
  post: null,
  soil: null,
  wire: null,
  insulator: null,
  insulatorState: null,
  fouledFraction: null,
  growth: null,
  growthWetness: null,
  leakSiemensPerMetre: null,
  postWetness: null,
};

const allRun = (id: string, set: Partial<Overrides>): ResolvedPlan['stretches'][number] => ({
  id,
  run: 'north',
  fromM: 0,
  toM: null,
  strands: null,
  conditions: null,
  set: { ...nothing, ...set },
});

/** One loop: source resistance, ground and the leak of a 20 m strand of next to no resistance; insulators leak nothing. */
function twoResistors(leak: Estimate, groundOhms: Estimate, sourceOhms: number): ResolvedPlan {
  const plan = plainPlan({}, { ...plainValues, ohmsPerMetre: 1e-7 + earthReturnAt5kHz, sourceOhms });
  plan.pulseHz = 5000;
  plan.rows.insulators['claw'] = { ...plan.rows.insulators['claw']!, formFactor: exact(1e30) };
  plan.energizer.ground = { kind: 'measured', ohms: groundOhms, measuredIn: null };
  plan.stretches = [allRun('leak', { leakSiemensPerMetre: leak })];
  return plan;
}

describe('a fence of two resistors, in closed form', () => {
  const draws = 4000;
  const leak = within(1e-4, 0.2e-4, 4e-4, 'S/m');
  /** Leak a metre at a share of its draws, from the definition: halves of a log-normal with 5 and 95 % at the ends. */
  const leakAt = (share: number) => {
    const z = normalQuantile(share);
    const end = z < 0 ? leak.low : leak.high;
    return leak.typical * Math.exp((Math.abs(z) / normalQuantile(0.95)) * Math.log(end / leak.typical));
  };
  const voltsAt = (share: number) => {
    const leakOhms = 1 / (20 * leakAt(1 - share));
    return (6000 * leakOhms) / (leakOhms + 500 + 50);
  };

  test('one uncertain value: quantiles and chance are those of the value, to one part of the draws', async () => {
    const plan = twoResistors(leak, exact(50, 'Ω'), 500);
    plan.target.volts = voltsAt(0.37);
    const result = await spread(plan, { draws, seed: 11 });
    const { weakest, chance, posts, influences } = result.conditions[0]!;
    // A stratum is drawn from anywhere in it, and quantiles are interpolated to a neighbour: one part and a half. The strand's own 2 µΩ, and the
    // earth's return of its 20 m, 0.1 Ω beside 50 Ω, shift the volts by less than 2e-3.
    for (const [share, volts] of [
      [0.1, weakest.p10],
      [0.5, weakest.p50],
      [0.9, weakest.p90],
    ] as const) {
      expect(volts).toBeGreaterThan(voltsAt(share - 1.5 / draws) * (1 - 2e-3));
      expect(volts).toBeLessThan(voltsAt(share + 1.5 / draws) * (1 + 2e-3));
    }
    // 2e-3 of the volts are this share of the draws.
    const slack = 2e-3 * (voltsAt(0.37) / ((voltsAt(0.38) - voltsAt(0.36)) / 0.02));
    expect(Math.abs(chance.share - 0.63)).toBeLessThan(1 / draws + slack);
    // The posts' contact is there too, behind an insulator that leaks nothing.
    expect(influences.map(({ kind }) => kind)).toEqual(['growth', 'post']);
    expect(influences[0]!.rankCorrelation).toBe(-1);
    expect(influences[1]!.varianceShare).toBeLessThan(result.shareNoise);
    expect(influences[0]!.varianceShare).toBeGreaterThan(0.99);
    for (const { voltsToEarth } of posts) {
      for (const key of ['p10', 'p50', 'p90'] as const)
        expect(Math.abs(voltsToEarth[key] / weakest[key] - 1)).toBeLessThan(result.binWidth + 2e-3);
      expect(Math.abs(voltsToEarth.typical / voltsAt(0.5) - 1)).toBeLessThan(2e-3);
    }
  });

  test('two uncertain values: the ratio of two log-normals is log-normal', async () => {
    // Ranges alike up and down, and a source of next to no resistance: E/V − 1 = ground ohms × leak.
    const [leakSpread, groundSpread] = [4, 2.5];
    const plan = twoResistors(
      within(1e-3, 1e-3 / leakSpread, 1e-3 * leakSpread, 'S/m'),
      within(50, 50 / groundSpread, 50 * groundSpread, 'Ω'),
      1e-3,
    );
    const sigma = Math.hypot(Math.log(leakSpread), Math.log(groundSpread)) / normalQuantile(0.95);
    const exactAt = (share: number) => 6000 / (1 + Math.exp(sigma * normalQuantile(1 - share)));
    const n = 10_000;
    plan.target.volts = exactAt(0.25);
    const result = await spread(plan, { draws: n, seed: 12 });
    const { weakest, chance } = result.conditions[0]!;
    // Four standard errors of a share in plain draws, which the strata only make smaller, and 2e-3 of the volts as above.
    const error = (share: number) => 4 * Math.sqrt((share * (1 - share)) / n);
    for (const [share, volts] of [
      [0.1, weakest.p10],
      [0.5, weakest.p50],
      [0.9, weakest.p90],
    ] as const) {
      expect(volts).toBeGreaterThan(exactAt(share - error(share)) * (1 - 2e-3));
      expect(volts).toBeLessThan(exactAt(share + error(share)) * (1 + 2e-3));
    }
    expect(Math.abs(chance.share - 0.75)).toBeLessThan(error(0.25) + 2e-3);
    expect(chance.low).toBeLessThan(chance.share);
    expect(chance.high).toBeGreaterThan(chance.share);
    // Of ln(E/V − 1), which the two share as the squares of their spreads, volts are a bent but rising function.
    const [first, second] = result.conditions[0]!.influences;
    expect([first!.kind, second!.kind]).toEqual(['growth', 'ground system']);
    const ratio = Math.log(leakSpread) ** 2 / Math.log(groundSpread) ** 2;
    expect(Math.abs(Math.log(first!.varianceShare / second!.varianceShare / ratio))).toBeLessThan(Math.log(1.25));
  });
});

/** A fence of twenty posts with ranges on wire, film, form factor, weathering, posts, two soils, growth, rods and output. */
function uncertainFence(): ResolvedPlan {
  const plan = plainPlan();
  plan.runs[0] = { ...plan.runs[0]!, lengthM: 200 };
  plan.builds[0] = {
    ...plan.builds[0]!,
    strands: [strand('top', { insulatorState: 'aged' }), strand('low', { heightM: 0.4, endInsulatorState: 'aged' })],
  };
  plan.conditions[0] = { ...plan.conditions[0]!, growth: { vegetation: 'heavy', heightM: 0.6 } };
  plan.energizer.loads = [
    { ohms: null, volts: within(6000, 5000, 6900, 'V') },
    { ohms: 500, volts: within(3000, 2500, 3450, 'V') },
    { ohms: 100, volts: within(900, 750, 1035, 'V') },
  ];
  plan.energizer.ground = { kind: 'rods', count: 3, lengthM: 2, diameterM: 0.016, spacingM: 3, layout: 'line' };
  const { rows } = plan;
  const soil = { topsoilOhmM: within(80, 30, 150, 'Ω·m'), deepOhmM: within(70, 30, 200, 'Ω·m') };
  rows.soils['loam'] = { ...rows.soils['loam']!, states: { dry: soil, moist: soil, wet: soil, frozen: soil } };
  rows.wires['wire'] = { ...rows.wires['wire']!, ohmsPerMetre: within(2, 1, 4, 'Ω/m') };
  rows.insulators['claw'] = {
    ...rows.insulators['claw']!,
    formFactor: within(1, 0.5, 2),
    weatheredFilmFactor: within(1.5, 1, 4),
  };
  for (const row of Object.values(rows.films)) {
    const film = within(2e-5, 0.3e-5, 10e-5, 'S');
    rows.films[row.id] = { ...row, siemens: { dry: film, damp: film, wet: film } };
  }
  const through = within(5000, 1000, 40_000, 'Ω');
  const post = rows.posts['post']!;
  rows.posts['post'] = {
    ...post,
    throughOhms: { dry: through, damp: through, wet: through },
    buriedM: exact(post.buriedM.typical, 'm'),
    contactRadiusM: exact(post.contactRadiusM.typical, 'm'),
  };
  const { wetSiemensPerMetre } = rows.vegetation['heavy']!;
  const wet = { ...wetSiemensPerMetre, low: 2e-6, typical: 1e-5, high: 3e-5 };
  rows.vegetation['heavy'] = { ...rows.vegetation['heavy']!, wetSiemensPerMetre: wet };
  plan.target = { volts: 2500, of: 'to earth', label: 'the target' };
  return plan;
}

/** Normals from another generator than the study's: a linear congruence (Knuth’s MMIX) and Box and Muller’s transformation. */
function normals(seed: bigint): () => number {
  let state = seed;
  const uniform = () => {
    state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
    return (Number(state >> 12n) + 0.5) / 2 ** 52;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** The same fence with one value drawn for everything uncertain, written into its tables. */
function perturbed(plan: ResolvedPlan, normal: () => number): ResolvedPlan {
  const at = (cell: Estimate, z: number) => {
    const end = z < 0 ? cell.low : cell.high;
    return exact(cell.typical * Math.exp((Math.abs(z) / 1.6448536269514722) * Math.log(end / cell.typical)), cell.unit);
  };
  const draw = (cell: Estimate) => at(cell, normal());
  const rows = { ...plan.rows };
  const wire = rows.wires['wire']!;
  rows.wires = { wire: { ...wire, ohmsPerMetre: draw(wire.ohmsPerMetre!) } };
  const claw = rows.insulators['claw']!;
  rows.insulators = {
    claw: { ...claw, formFactor: draw(claw.formFactor), weatheredFilmFactor: draw(claw.weatheredFilmFactor) },
  };
  // All films of one run age together.
  const age = normal();
  rows.films = Object.fromEntries(
    Object.values(rows.films).map((row) => [
      row.id,
      { ...row, siemens: { ...row.siemens, damp: at(row.siemens.damp, age) } },
    ]),
  );
  const post = rows.posts['post']!;
  rows.posts = { post: { ...post, throughOhms: { ...post.throughOhms, damp: draw(post.throughOhms.damp) } } };
  // Topsoil and deep soil are dry or wet together.
  const dryness = normal();
  const loam = rows.soils['loam']!;
  const moist = {
    topsoilOhmM: at(loam.states.moist.topsoilOhmM, dryness),
    deepOhmM: at(loam.states.moist.deepOhmM, dryness),
  };
  rows.soils = { loam: { ...loam, states: { ...loam.states, moist } } };
  const heavy = rows.vegetation['heavy']!;
  rows.vegetation = {
    ...rows.vegetation,
    heavy: { ...heavy, wetSiemensPerMetre: draw(heavy.wetSiemensPerMetre) },
  };
  // One factor for the whole curve; the three loads have the same range.
  const output = normal();
  const loads = plan.energizer.loads.map(({ ohms, volts }) => ({ ohms, volts: at(volts, output) }));
  return { ...plan, energizer: { ...plan.energizer, loads }, rows };
}

const quantile = (sorted: readonly number[], share: number) => sorted[Math.floor(share * sorted.length)]!;

describe('against plain Monte Carlo: tables perturbed, the fence built and solved anew each time', () => {
  const plan = uncertainFence();
  const layout = layOut(plan);
  const nodes = layout.runs[0]!.nodes;
  const plain = 6000;
  const normal = normals(20_240_607n);
  const watched = [4, 10, 19];
  const samples = watched.map(() => [] as number[]);
  const weakest: number[] = [];
  for (let n = 0; n < plain; n++) {
    const changed = perturbed(plan, normal);
    const { volts } = openFence(changed, changed.conditions[0]!);
    const least = (i: number) => Math.min(...nodes.map((own) => volts[own[i]!]!));
    for (const [w, i] of watched.entries()) samples[w]!.push(least(i));
    weakest.push(Math.min(...Array.from({ length: 21 }, (_, i) => least(i))));
  }
  for (const list of [...samples, weakest]) list.sort((a, b) => a - b);
  const draws = 10_000;
  const study = spread(plan, { draws, seed: 21 });

  /** Volts that a quantile may be off: four standard errors of both samples (the hypercube counted as plain), by the slope of the plain one. */
  const tolerance = (sorted: readonly number[], share: number) => {
    const slope = (quantile(sorted, share + 0.03) - quantile(sorted, share - 0.03)) / 0.06;
    return 4 * Math.sqrt(share * (1 - share) * (1 / plain + 1 / draws)) * slope;
  };

  test.each([
    ['p10', 0.1],
    ['p50', 0.5],
    ['p90', 0.9],
  ] as const)('%s at posts and at the weakest post', async (key, share) => {
    const result = await study;
    const { posts, weakest: found } = result.conditions[0]!;
    watched.forEach((i, w) => {
      const { voltsToEarth } = posts.find(({ id }) => id === `north/${i}`)!;
      const sorted = samples[w]!;
      const bin = result.binWidth * voltsToEarth[key];
      expect(Math.abs(voltsToEarth[key] - quantile(sorted, share))).toBeLessThan(tolerance(sorted, share) + bin);
    });
    expect(Math.abs(found[key] - quantile(weakest, share))).toBeLessThan(tolerance(weakest, share));
  });

  test('the chance that the target holds', async () => {
    const { chance } = (await study).conditions[0]!;
    const expected = weakest.filter((volts) => volts >= plan.target.volts).length / plain;
    expect(expected).toBeGreaterThan(0.2);
    expect(expected).toBeLessThan(0.8);
    const error = 4 * Math.sqrt(expected * (1 - expected) * (1 / plain + 1 / draws));
    expect(Math.abs(chance.share - expected)).toBeLessThan(error);
  });
});

describe('draws', () => {
  test('are the same for the same seed, others for another', async () => {
    const plan = uncertainFence();
    const [a, b, c] = await Promise.all([5, 5, 6].map((seed) => spread(plan, { draws: 300, seed })));
    expect(a).toEqual(b);
    expect(c!.conditions[0]!.weakest).not.toEqual(a!.conditions[0]!.weakest);
  });

  test('of a condition do not depend on what else is asked; all conditions at once hold no more often than one', async () => {
    const plan = uncertainFence();
    const usual = plan.conditions[0]!;
    plan.conditions = [usual, { ...usual, id: 'bare', name: 'bare', growth: { vegetation: 'none', heightM: 0 } }];
    const both = await spread(plan, { draws: 500 });
    const alone = await spread(plan, { draws: 500, conditions: ['bare'] });
    expect(alone.conditions[0]).toEqual(both.conditions[1]);
    const [dense, bare] = both.conditions.map(({ chance }) => chance.share);
    expect(dense).toBeLessThan(bare!);
    // Growth only ever takes volts, and draws are shared: wherever the grown fence holds, the bare one does.
    expect(both.chance.share).toBe(dense);
    expect(both.sentence).toContain('usual, the least sure of 2 conditions');
  });

  test('with every value exact give the typical volts everywhere', async () => {
    const plan = plainPlan();
    const result = await spread(plan, { draws: 100 });
    const { volts, network: fence } = openFence(plan, plan.conditions[0]!);
    const { weakest, posts, influences, chance } = result.conditions[0]!;
    // The post's contact with the soil has a range, but soil of 1e-12 Ω·m makes nothing of it.
    expect(influences).toMatchObject([{ kind: 'post', varianceShare: 0, rankCorrelation: 0 }]);
    expect(chance.share).toBe(1);
    const least = Math.min(...Array.from(fence.layout.runs[0]!.nodes[0]!, (node) => volts[node]!));
    for (const volts of Object.values(weakest)) expect(volts).toBeCloseTo(least, 6);
    expect(posts.map(({ id }) => id)).toEqual(['a', 'b', 'north/1']);
    for (const { voltsToEarth } of posts)
      expect(Math.abs(voltsToEarth.p50 / voltsToEarth.typical - 1)).toBeLessThan(result.binWidth);
  });

  test('of a fence that a fault has cut never hold', async () => {
    const plan = uncertainFence();
    plan.faults = [
      {
        id: 'broken',
        kind: 'broken wire',
        run: 'north',
        post: 5,
        on: 'span',
        strand: 'top',
        otherStrand: null,
        ohms: null,
        gapVolts: null,
        conditions: null,
      },
    ];
    plan.builds[0] = { ...plan.builds[0]!, ties: 'from' };
    plan.target.volts = 1;
    expect((await spread(plan, { draws: 100 })).conditions[0]!.chance.share).toBe(0);
  });
});

describe('across the animal', () => {
  test('counts what the animal feels, touched anew in every draw with its own drawn values', async () => {
    const plan = uncertainFence();
    plan.target = { volts: 700, of: 'across the animal', label: 'the target' };
    // One draw a stratum: with a single uncertain value left, 100 draws are known from outside.
    const only = plainPlan({ target: plan.target });
    const cattle = only.rows.animals['cattle']!;
    only.rows.animals['cattle'] = { ...cattle, bodyOhms: exact(500, 'Ω'), hideOhms: within(1000, 300, 4000, 'Ω') };
    const { conditions } = await spread(only, { draws: 101, seed: 2 });
    const at = (hideOhms: number) => {
      const rows = {
        ...only.rows,
        animals: { cattle: { ...cattle, bodyOhms: exact(500, 'Ω'), hideOhms: exact(hideOhms, 'Ω') } },
      };
      const changed = { ...only, rows };
      const solved = openFence(changed, changed.conditions[0]!);
      const { volts } = solved.animal;
      return Math.min(...Array.from(solved.network.layout.runs[0]!.nodes[0]!, (node) => volts[node]!));
    };
    // The median of the draws lies in the middle stratum, within 1/202 of the median of the value.
    const half = normalQuantile(0.5 + 1 / 202) / 1.6448536269514722;
    const [low, high] = [1000 * (300 / 1000) ** half, 1000 * 4 ** half];
    expect(conditions[0]!.weakest.p50).toBeGreaterThanOrEqual(at(low) * (1 - 1e-9));
    expect(conditions[0]!.weakest.p50).toBeLessThanOrEqual(at(high) * (1 + 1e-9));
    expect(conditions[0]!.posts[0]!.animalVolts!.typical).toBeLessThan(conditions[0]!.posts[0]!.voltsToEarth.typical);
    const uncertain = (await spread(plan, { draws: 200 })).conditions[0]!;
    expect(uncertain.influences.map(({ kind }) => kind)).toContain('animal');
  });
});

describe('what is written into the circuit', () => {
  const plan = uncertainFence();
  const solved = openFence(plan, plan.conditions[0]!);
  const { parameters, formulas } = solved.network;

  test('formulas run as arrays give what they give one by one, to rounding', () => {
    const program = new FormulaProgram(formulas, parameters.length);
    const siemens = new Float64Array(formulas.length);
    const normal = normals(3n);
    for (let n = 0; n < 20; n++) {
      const values = parameters.map(({ estimate }) => estimate.typical * Math.exp(normal()));
      program.run(values, siemens);
      formulaValues(solved.network, values).forEach((expected, r) => {
        // A handful of products and sums of positive numbers: some 1e-16 each.
        expect(Math.abs(siemens[r]! - expected)).toBeLessThanOrEqual(1e-14 * expected);
      });
    }
  });

  test('changed values solve to what the changed tables solve to', () => {
    const drawn = solved.fork();
    const normal = normals(4n);
    for (let n = 0; n < 5; n++) {
      const changed = perturbed(plan, normal);
      const expected = openFence(changed, changed.conditions[0]!);
      const values = buildNetwork(changed, changed.conditions[0]!).parameters.map(({ estimate }) => estimate.typical);
      const factor = changed.energizer.loads[0]!.volts.typical / plan.energizer.loads[0]!.volts.typical;
      drawn.setValues(values, factor);
      const solution = drawn.circuit.solve();
      expectLaws(drawn.circuit.network, solution);
      solution.volts.forEach((volts, node) => {
        // Both eliminate in their own way; each value has its digits but the last two or three.
        expect(Math.abs(volts - expected.volts[node]!)).toBeLessThan(1e-12 * 6000);
      });
    }
  });

  test('a spark gap fires at its drawn volts, and the fence it was made from keeps its own', () => {
    const ticking = uncertainFence();
    const gap = (volts: number, ohms: number): ResolvedPlan['faults'] => [
      {
        id: 'tick',
        kind: 'ticking insulator',
        run: 'north',
        post: 3,
        on: 'post',
        strand: 'top',
        otherStrand: null,
        ohms: exact(ohms, 'Ω'),
        gapVolts: exact(volts, 'V'),
        conditions: null,
      },
    ];
    ticking.faults = gap(2000, 1000);
    const made = openFence(ticking, ticking.conditions[0]!);
    const before = made.volts.slice();
    const drawn = made.fork();
    for (const [volts, ohms] of [
      [500, 300],
      [1000, 2000],
      [9000, 1000],
    ] as const) {
      const changed = { ...ticking, faults: gap(volts, ohms) };
      const expected = openFence(changed, changed.conditions[0]!);
      const { parameters: own } = buildNetwork(changed, changed.conditions[0]!);
      drawn.setValues(
        own.map(({ estimate }) => estimate.typical),
        1,
      );
      drawn.circuit.solve().volts.forEach((found, node) => {
        // A fired gap's volts are subtracted on the way: a few more digits go than without.
        expect(Math.abs(found - expected.volts[node]!)).toBeLessThan(1e-9 * 6000);
      });
    }
    made.circuit.valuesChanged();
    expect(made.circuit.solve().volts).toEqual(before);
  });

  test('one draw is taken for all that rises and falls together', () => {
    const values = uncertainValues(solved.network);
    const keys = values.map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys).toContain('energizer');
    // The animal matters only where the target is compared with the volts across it.
    const together = parameters.filter(({ estimate, kind }) => estimate.low < estimate.high && kind !== 'animal');
    expect(new Set(keys)).toEqual(new Set([...together.map((p) => p.group), 'energizer']));
    expect(values.find(({ kind }) => kind === 'soil')!.name).toMatch(/topsoil.*rod depth|rod depth.*topsoil/);
  });
});

describe('asking wrongly, stopping, watching', () => {
  test.each([
    [{ draws: 99 }, 'draws: found 99, expected a whole number from 100 to 100000.'],
    [{ draws: 1e6 }, 'draws: found 1000000, expected a whole number from 100 to 100000.'],
    [{ draws: 1000.5 }, 'draws: found 1000.5, expected a whole number from 100 to 100000.'],
    [{ seed: 0.5 }, 'seed: found 0.5, expected a whole number.'],
    [{ conditions: ['winter'] }, 'conditions: found "winter", expected one of "usual".'],
  ])('%j', async (options, message) => {
    await expect(spread(plainPlan(), options)).rejects.toThrow(message);
  });

  test('an aborted signal ends it with the signal’s reason; progress rises to 1', async () => {
    await expect(spread(uncertainFence(), { signal: AbortSignal.abort('enough') })).rejects.toBe('enough');
    const abort = new AbortController();
    const stopped = spread(uncertainFence(), {
      draws: 100_000,
      signal: abort.signal,
      onProgress: () => abort.abort('later'),
    });
    await expect(stopped).rejects.toBe('later');
    const seen: number[] = [];
    await spread(uncertainFence(), { draws: 3000, onProgress: (done) => seen.push(done) });
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBe(1);
  });

  test('the result survives JSON', async () => {
    const result = await spread(uncertainFence(), { draws: 100 });
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });
});
