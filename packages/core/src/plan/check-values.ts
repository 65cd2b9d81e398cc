import { formatLength, formatVolts } from '../quantity/format.js';
import { geodesicM } from './geodesic.js';
import { spanCount } from './posts.js';
import type { Reporter } from './reporter.js';
import { mostPosts, type ResolvedPlan } from './resolved.js';

/** Checks values against each other: errors where no answer could be right, warnings where one looks doubtful. */
export function checkValues(plan: ResolvedPlan, report: Reporter): void {
  checkCurve(plan, report);
  checkRuns(plan, report);
  checkStrands(plan, report);
  checkRods(plan, report);
  checkCables(plan, report);
  checkJunctions(plan, report);
}

/** Volts fall and amps rise from each load to the next heavier one: typical values, and both ends of the ranges. */
function checkCurve(plan: ResolvedPlan, report: Reporter): void {
  const { loads } = plan.energizer;
  const path = ['energizer', 'loads'];
  if (loads.length < 2) return;
  if (loads[0]!.ohms !== null)
    report.error('no-open-circuit', path, 'no volts at open circuit', '`open` and one load or more');
  for (let i = 1; i < loads.length; i++) {
    const [before, after] = [loads[i - 1]!, loads[i]!];
    const word = (load: typeof before) => (load.ohms === null ? 'open circuit' : `${load.ohms} ohm`);
    if (after.ohms === null || (before.ohms !== null && after.ohms >= before.ohms)) {
      report.error(
        'loads-not-falling',
        path,
        `${word(after)} after ${word(before)}`,
        'loads in falling order, each once',
      );
      continue;
    }
    const falls = (['low', 'typical', 'high'] as const).every((end) => {
      const [v0, v1] = [before.volts[end], after.volts[end]];
      return v1 < v0 && v1 / after.ohms! > (before.ohms === null ? 0 : v0 / before.ohms);
    });
    if (!falls) {
      const at = (load: typeof before) => `${formatVolts(load.volts.typical)} at ${word(load)}`;
      report.error(
        'curve-not-falling',
        path,
        `${at(after)} after ${at(before)}`,
        'fewer volts and more amps at each heavier load',
      );
    }
  }
}

function checkRuns(plan: ResolvedPlan, report: Reporter): void {
  let posts = plan.junctions.length;
  let reported = false;
  plan.runs.forEach((run, i) => {
    posts += Math.max(0, spanCount(run) - 1);
    if (posts > mostPosts && !reported) {
      reported = true;
      report.error(
        'too-many-posts',
        ['runs', i],
        `more than ${mostPosts.toLocaleString('en')} posts`,
        `at most ${mostPosts.toLocaleString('en')} posts in a plan`,
        'Check the length and the post spacing.',
      );
    }
    if (run.posts.kind === 'at') checkPositions(plan, i, report);
    const spanM = run.lengthM / spanCount(run);
    if (spanM < 0.3 && spanCount(run) > 1) {
      report.warn(
        'close-posts',
        ['runs', i],
        `posts ${formatLength(spanM, plan.units)} apart`,
        'some 20 to 100 ft (6 to 30 m)',
      );
    }
    if (spanM > 61) {
      report.warn(
        'far-posts',
        ['runs', i],
        `posts ${formatLength(spanM, plan.units)} apart`,
        'some 20 to 100 ft (6 to 30 m)',
      );
    }
  });
}

function checkPositions(plan: ResolvedPlan, i: number, report: Reporter): void {
  const run = plan.runs[i]!;
  if (run.posts.kind !== 'at') return;
  const { positionsM } = run.posts;
  const isRising = positionsM.every((at, k) => k === 0 || at > positionsM[k - 1]!);
  const isWhole = positionsM[0] === 0 && Math.abs(positionsM.at(-1)! - run.lengthM) <= 1e-6 * run.lengthM;
  if (!isRising) report.error('not-rising', ['runs', i, 'posts'], 'posts out of order', 'places in rising order');
  else if (!isWhole)
    report.error(
      'out-of-range',
      ['runs', i, 'posts'],
      'posts that do not reach from end to end',
      'the first at 0 and the last at the length',
    );
}

function checkStrands(plan: ResolvedPlan, report: Reporter): void {
  plan.builds.forEach((build, b) => {
    build.strands.forEach((strand, s) => {
      const path = ['builds', b, 'strands', s];
      const height = formatLength(strand.heightM, plan.units);
      if (!(strand.heightM > 0 && strand.heightM <= 5))
        report.error('out-of-range', [...path, 'heightM'], height, 'a height above the ground and below 5 m');
      else if (strand.heightM < 0.1 || strand.heightM > 2.5)
        report.warn('odd-height', [...path, 'heightM'], height, 'a strand between 4 in (0.1 m) and 8 ft (2.5 m)');
      const line = plan.rows.insulators[strand.insulator];
      const end = plan.rows.insulators[strand.endInsulator];
      if (line?.place === 'end')
        report.warn('insulator-place', [...path, 'insulator'], `"${line.id}" on line posts`, 'a line insulator');
      if (end?.place === 'line')
        report.warn('insulator-place', [...path, 'endInsulator'], `"${end.id}" at ends`, 'an end insulator');
      if (strand.role === 'hot' && (line?.material === 'metal' || end?.material === 'metal')) {
        report.warn('hot-on-metal', [...path, 'insulator'], 'a hot strand on bare metal', 'an insulator');
      }
    });
  });
}

/** Rods are reckoned as lines in the soil: this much longer than they are thick, and so many diameters apart at the least. */
const slender = 5;
const apart = 2;

function checkRods(plan: ResolvedPlan, report: Reporter): void {
  const checkShape = (rod: { lengthM: number; diameterM: number }, path: (string | number)[]) => {
    if (rod.lengthM >= slender * rod.diameterM) return;
    const found = `a rod ${formatLength(rod.lengthM, plan.units)} long`;
    const thick = formatLength(rod.diameterM, plan.units);
    report.error('stout-rod', [...path, 'lengthM'], found, `at least ${slender} times its diameter of ${thick}`);
  };
  plan.strandRods.forEach((rods, i) => {
    checkShape(rods, ['strandRods', i]);
  });
  const { ground } = plan.energizer;
  if (ground.kind !== 'rods') return;
  const path = ['energizer', 'ground'];
  checkShape(ground, path);
  if (ground.count > 1 && ground.spacingM < apart * ground.diameterM) {
    const found = `rods ${formatLength(ground.spacingM, plan.units)} apart`;
    const expected = `at least ${apart} diameters of ${formatLength(ground.diameterM, plan.units)}`;
    report.error('rods-touch', [...path, 'spacingM'], found, expected);
  }
  if (ground.count < 3)
    report.warn(
      'few-rods',
      [...path, 'count'],
      `${ground.count} ground rod${ground.count === 1 ? '' : 's'}`,
      'three or more, as is usual',
    );
  if (ground.count > 1 && ground.spacingM < ground.lengthM * (1 - 1e-9)) {
    const found = `rods ${formatLength(ground.spacingM, plan.units)} apart`;
    report.warn(
      'close-rods',
      [...path, 'spacingM'],
      found,
      `a rod length (${formatLength(ground.lengthM, plan.units)}) or more`,
      'Closer rods share the same soil.',
    );
  }
}

function checkCables(plan: ResolvedPlan, report: Reporter): void {
  const open = plan.energizer.loads[0]?.volts.typical ?? 0;
  const check = (wire: string, path: (string | number)[]) => {
    const volts = plan.rows.wires[wire]?.insulationVolts;
    if (volts === undefined) return;
    if (volts === null) report.warn('bare-cable', path, `the bare wire "${wire}"`, 'insulated cable');
    else if (volts.typical < open)
      report.warn(
        'weak-insulation',
        path,
        `"${wire}", insulated for ${formatVolts(volts.typical)}`,
        `cable for the ${formatVolts(open)} of this energizer`,
      );
  };
  if (plan.energizer.leadOut !== null) check(plan.energizer.leadOut.wire, ['energizer', 'leadOut', 'wire']);
  plan.gates.forEach((gate, i) => {
    check(gate.cable.wire, ['gates', i, 'cable', 'wire']);
  });
  plan.links.forEach((link, i) => {
    if (link.role === 'hot') check(link.cable.wire, ['links', i, 'cable', 'wire']);
  });
}

/** Metres by which a line may miss the place of its junction before it is called doubtful. */
const looseM = 30;

function checkJunctions(plan: ResolvedPlan, report: Reporter): void {
  const ends = new Map<string, number>();
  const atOf = new Map(plan.junctions.map((junction) => [junction.id, junction.at]));
  plan.runs.forEach((run, i) => {
    for (const id of [run.from, run.to]) ends.set(id, (ends.get(id) ?? 0) + 1);
    if (run.line === null) return;
    for (const [id, corner] of [
      [run.from, run.line[0]!],
      [run.to, run.line.at(-1)!],
    ] as const) {
      const at = atOf.get(id) ?? null;
      const missM = at === null ? 0 : geodesicM(at, corner);
      if (missM > looseM)
        report.warn(
          'line-misses-junction',
          ['runs', i, 'line'],
          `an end ${formatLength(missM, plan.units)} from "${id}"`,
          'a line that ends at its junctions',
          'Is the order [longitude, latitude], from the run’s start?',
        );
    }
  });
  plan.junctions.forEach((junction, i) => {
    if (junction.through && (ends.get(junction.id) ?? 0) < 2) {
      report.warn(
        'through-end',
        ['junctions', i, 'through'],
        `"${junction.id}" is passed by but fewer than two runs meet there`,
        'two runs, or `through: false`',
      );
    }
  });
}
