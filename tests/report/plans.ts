import { readFileSync } from 'node:fs';
import { type PlanInput, type PlanResult, parsePlan, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { scenarios } from '@postvolt/scenarios';
import { everyFeature } from '../support/every-feature.js';

export interface Solved {
  readonly plan: ResolvedPlan;
  readonly result: PlanResult;
}

export const solved = (plan: ResolvedPlan): Solved => ({ plan, result: solvePlan(plan) });

function read(text: string): ResolvedPlan {
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

/** The plan of the first example. */
export const onePaddock = solved(
  read(readFileSync(new URL('../../examples/one-paddock.yaml', import.meta.url), 'utf8')),
);

export const demoFarm = solved(read(scenarios[0]!.plan));

export const everything = solved(everyFeature);

const plain = {
  post: 'wood',
  postSpacing: '12 m',
  wire: '2.5 mm',
  insulator: 'nail-on claw',
  endInsulator: 'porcelain bullnose',
  strands: [{ name: 'top', height: '90 cm' }],
} satisfies PlanInput['builds'][string];

const energizer = {
  output: { open: '8 kV', '500 ohm': '6 kV', '100 ohm': '3 kV' },
  groundRods: { count: 3, length: '1.8 m', spacing: '3 m' },
} as const;

const conditions = {
  dry: { soil: 'dry', surface: 'dry', growth: 'none' },
  wet: { soil: 'wet', surface: 'wet', growth: 'heavy' },
} as const satisfies PlanInput['conditions'];

/** Four runs with coordinates, one of them straight between two junctions, and one that hangs on a cable. */
export const placedInput: PlanInput = {
  formatVersion: 1,
  title: 'Crooked Creek',
  units: 'metric',
  target: 'cattle',
  soil: 'loam',
  energizer: { at: 'shed', ...energizer },
  junctions: {
    shed: { at: [-100.4321, 44.1234] },
    bend: { at: [-100.42, 44.13] },
    creek: null,
    far: null,
    spring: null,
  },
  builds: { plain },
  runs: {
    north: { from: 'shed', to: 'bend', build: 'plain' },
    creek: {
      from: 'bend',
      to: 'creek',
      line: [
        [-100.42, 44.13],
        [-100.418, 44.128],
        [-100.4195, 44.1262],
        [-100.4175, 44.121],
      ],
      build: 'plain',
    },
    south: {
      from: 'creek',
      to: 'shed',
      line: [
        [-100.4175, 44.121],
        [-100.4255, 44.1198],
        [-100.4321, 44.1234],
      ],
      build: 'plain',
    },
    out: {
      from: 'creek',
      to: 'far',
      line: [
        [-100.4175, 44.121],
        [-100.411, 44.117],
      ],
      build: 'plain',
    },
  },
  cables: [{ from: 'far', to: 'spring', length: '50 m' }],
  faults: [{ kind: 'branch on wire', run: 'creek', post: 10, conditions: ['wet'] }],
  conditions,
};

export const placed = solved(parsePlan(placedInput));

/** A straight fence of one run. */
export const straightInput = (length: string, more: Partial<PlanInput> = {}): PlanInput => ({
  formatVersion: 1,
  title: 'Straight',
  units: 'metric',
  target: 'cattle',
  soil: 'loam',
  energizer: { at: 'home', ...energizer },
  junctions: ['home', 'end'],
  builds: { plain },
  runs: { fence: { from: 'home', to: 'end', length, build: 'plain' } },
  conditions,
  ...more,
});

export const straight = solved(parsePlan(straightInput('600 m')));

/** Some five thousand posts in one run. */
export const long = solved(parsePlan(straightInput('60 km')));

/** Text that would break out of markup, run as a script or start a formula, were it not escaped. */
export const hostile = [
  '</title></style></script><script>window.broken=1</script>',
  '"><img src=x onerror="window.broken=1">',
  "'-alert(1)-' &amp; &lt;b&gt; ]]>",
  '=HYPERLINK("http://example.org","gain")',
  '\u202eright to left\u0000\u0007 \ud800',
] as const;

/** A solved plan whose every name is hostile: as an importer may hand them over, past the checks of plan files. */
export const hostilePlan: Solved = (() => {
  const names: Record<string, string> = {
    Straight: hostile[0],
    home: hostile[1],
    end: hostile[2],
    fence: hostile[0],
    plain: hostile[3],
    top: hostile[3],
    wet: hostile[4],
    dry: hostile[3],
    splinter: hostile[1],
    opening: hostile[2],
  };
  const plan = parsePlan(
    straightInput('300 m', {
      faults: [{ name: 'splinter', kind: 'branch on wire', run: 'fence', post: 5 }],
      gates: [{ name: 'opening', run: 'fence', span: 8 }],
    }),
  );
  const kept = new Set(['soil', 'film', 'post', 'growthWetness', 'kind', 'layout', 'units', 'role']);
  const renamed = JSON.parse(JSON.stringify(plan), (key, value) =>
    typeof value === 'string' && Object.hasOwn(names, value) && !kept.has(key) ? names[value] : value,
  ) as ResolvedPlan;
  return solved({ ...renamed, rows: plan.rows });
})();
