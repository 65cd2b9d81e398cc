// What studies put into a report: every number of the study, in its words.
import { formatVolts, openFence, solvePlan, strandNode } from '@postvolt/core';
import {
  compare,
  lossesByCause,
  materials,
  months,
  parseReadings,
  readChanges,
  spread,
  trace,
  upkeep,
} from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import {
  compareSection,
  conditionOf,
  costsSection,
  insulatorsSection,
  materialsSection,
  monthsSection,
  type ReportSection,
  renderReport,
  spreadSection,
  traceSection,
  upkeepSection,
} from '@postvolt/report';
import { scenario } from '@postvolt/scenarios';
import { describe, expect, it } from 'vitest';
import { parseXml } from './parse-xml.js';

const outcome = readPlanText(scenario('demo farm').plan);
if (!outcome.ok) throw new Error('the demo farm does not read');
const plan = outcome.value;
const result = solvePlan(plan);
const worst = conditionOf(result);
const conditions = [worst.id];

const round = {
  condition: 'wet spring',
  readings: [
    { post: 'cross 2/81', kV: 3.4, amps: 6.4, from: 'cross 2/82' },
    { post: 'cross 2/17', kV: 3.5, amps: 4.8, towards: 'cross 2/18' },
  ],
};

/** Every section must draw, at both widths, and its tables be as wide as their heads. */
function check(section: ReportSection): ReportSection {
  expect(section.lead).not.toBe('');
  for (const { draw } of section.figures ?? []) {
    for (const width of [344, 760]) expect(() => parseXml(draw({ width, id: 'figure' }))).not.toThrow();
  }
  for (const { columns, rows } of section.tables ?? []) {
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) expect(row).toHaveLength(columns.length);
  }
  expect(renderReport({ plan, result, extras: [section] })).toContain(`>${section.title}</h2>`);
  return section;
}

describe('a section of a report', () => {
  it('says what costs the weakest post its volts', () => {
    const solved = openFence(plan, plan.conditions.find(({ id }) => id === worst.id)!);
    const costs = lossesByCause(solved, strandNode(solved.network.layout, worst.verdict.weakest));
    const { tables, lead } = check(costsSection(result, costs));
    expect(tables![0]!.rows[0]!.slice(0, 2)).toEqual([costs[0]!.cause, formatVolts(costs[0]!.volts)]);
    expect(lead).toContain(worst.verdict.weakest.postId);
  });

  it('says how sure it is', async () => {
    const study = await spread(plan, { draws: 100, conditions });
    const { tables, figures } = check(spreadSection(plan, result, study));
    expect(tables![0]!.rows.map(([name]) => name)).toEqual([worst.name]);
    expect(figures).toHaveLength(2);
  });

  it('goes through the year', async () => {
    const study = await months(plan);
    expect(check(monthsSection(study)).tables![0]!.rows).toHaveLength(12);
  });

  it('sets variants side by side', async () => {
    const variants = ['spray', 'rods +2'].map((name) => ({ name, changes: readChanges(name, []) }));
    const study = await compare(plan, { variants, conditions });
    const { rows } = check(compareSection(study)).tables![0]!;
    expect(rows.map(([name]) => name)).toEqual(['as it is', 'spray', 'rods +2']);
    expect(rows.map(([, least]) => least)).toEqual(study.variants.map(({ leastVolts }) => formatVolts(leastVolts)));
  });

  it('follows insulators through the years', async () => {
    const study = await compare(plan, { conditions, insulatorYears: { years: 10 } });
    const { rows } = check(insulatorsSection({ ...study, years: study.years! })).tables![0]!;
    expect(rows.map(([, , least]) => least)).toEqual(
      study.years!.series.map(({ leastVolts }) => formatVolts(leastVolts)),
    );
  });

  it('says what to mend first, in two orders', async () => {
    const study = await upkeep(plan, { conditions, mostSteps: 3 });
    const { tables } = check(upkeepSection(study));
    expect(tables![0]!.rows).toHaveLength(study.steps.length);
    expect(tables![1]!.rows.map(([text]) => text).sort()).toEqual(tables![0]!.rows.map(([text]) => text).sort());
  });

  it('lists what to buy', () => {
    const study = materials(plan);
    expect(check(materialsSection(study)).tables![0]!.rows).toHaveLength(study.lines.length);
  });

  it('says what the meter says', async () => {
    const readings = parseReadings(round, plan);
    const study = await trace(plan, readings);
    const { figures, tables, lead } = check(traceSection(plan, readings, study));
    expect(lead).toBe(study.sentence);
    expect(figures![0]!.draw({})).toContain(study.faults[0]!.causes[0]!.cause);
    expect(tables!.at(-1)!.rows).toHaveLength(4);
  });
});
