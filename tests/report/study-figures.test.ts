import { solvePlan } from '@postvolt/core';
import { months as reckonMonths, spread } from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import { months, monthsInput, spreadBand, spreadBars, spreadRows, voltsAlong } from '@postvolt/report';
import { scenario } from '@postvolt/scenarios';
import { expect, test } from 'vitest';

const outcome = readPlanText(scenario('demo farm').plan);
if (!outcome.ok) throw new Error('the demo farm does not read');
const plan = outcome.value;

test('a year becomes its figure: twelve months, the worst weather of each, its range up to the best', async () => {
  const result = await reckonMonths(plan, { climate: 'semi-arid' });
  const input = monthsInput(result);
  expect(input.months.map(({ label }) => label)).toEqual([
    'Jan',
    'Feb',
    'Mar',
    'Apr',
    'May',
    'Jun',
    'Jul',
    'Aug',
    'Sep',
    'Oct',
    'Nov',
    'Dec',
  ]);
  result.months.forEach(({ volts, bestVolts, weathers }, m) => {
    expect(input.months[m]).toMatchObject({ volts, lowVolts: volts, highVolts: bestVolts });
    expect(input.months[m]!.condition).toBe(weathers[0]!.condition.name);
  });
  const svg = months(input);
  expect(svg).toContain('>Jul<');
  expect(svg).toContain('dew on dry ground');
});

test('a spread becomes bars a condition, and a band along the fence with every fed post', async () => {
  const id = plan.conditions[1]!.id;
  const result = await spread(plan, { draws: 100, conditions: [id] });
  expect(spreadBars({ target: result.target, rows: spreadRows(result) })).toContain(
    `holds in ${Math.round(100 * result.conditions[0]!.chance.share)} % of draws`,
  );
  const band = spreadBand(result.conditions[0]!);
  const solved = solvePlan(plan, { conditions: [id] });
  const live = solved.conditions[0]!.posts.filter(({ strands }) => strands.some(({ status }) => status === 'live'));
  expect([...band.posts.keys()].sort()).toEqual(live.map((post) => post.id).sort());
  for (const { low, high } of band.posts.values()) expect(low).toBeLessThan(high);
  const svg = voltsAlong({ plan, result: solved, band });
  expect(svg).toContain('P10 to P90');
  expect(svg.length).toBeGreaterThan(voltsAlong({ plan, result: solved }).length);
});
