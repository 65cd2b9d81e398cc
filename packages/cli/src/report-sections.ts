import type { PlanResult, ResolvedPlan } from '@postvolt/core';
import type { MeterReadings, PlanVariant } from '@postvolt/core/studies';
import type { ReportSection } from '@postvolt/report';
import { withProgress } from './progress.js';

/** Studies that a report can hold besides the volts. */
export const sectionNames = ['costs', 'spread', 'months', 'insulators', 'upkeep', 'materials'] as const;
export type SectionName = (typeof sectionNames)[number];

/** What a report is to hold besides the volts. */
export interface SectionsAsked {
  readonly names: readonly SectionName[];
  /** Changes to set beside the plan; none, no comparison. */
  readonly variants: readonly PlanVariant[];
  /** A fence meter's readings; null for none. */
  readonly readings: MeterReadings | null;
}

/** Draws of the spread in a report: enough for whole percents. */
const draws = 2000;

/** The sections of a report: the studies in the order asked for, then variants, then what the meter says. */
export async function reportSections(
  { names, variants, readings }: SectionsAsked,
  plan: ResolvedPlan,
  result: PlanResult,
): Promise<ReportSection[]> {
  const sections: ReportSection[] = [];
  for (const name of names)
    sections.push(await withProgress(name, (onProgress) => makers[name](plan, result, onProgress)));
  if (variants.length === 0 && readings === null) return sections;
  const [{ compare, trace }, { compareSection, traceSection }] = await Promise.all([
    import('@postvolt/core/studies'),
    import('@postvolt/report'),
  ]);
  if (variants.length > 0)
    sections.push(
      compareSection(
        await withProgress('variants', (onProgress) =>
          compare(plan, { onProgress, variants, conditions: conditionsOf(result) }),
        ),
      ),
    );
  if (readings !== null) {
    const traced = await withProgress('readings', (onProgress) => trace(plan, readings, { onProgress }));
    sections.push(traceSection(plan, readings, traced));
  }
  return sections;
}

type Maker = (plan: ResolvedPlan, result: PlanResult, onProgress: (done: number) => void) => Promise<ReportSection>;

const load = () => Promise.all([import('@postvolt/core/studies'), import('@postvolt/report')]);
const conditionsOf = ({ conditions }: PlanResult): string[] => conditions.map(({ id }) => id);

const makers: Record<SectionName, Maker> = {
  async costs(plan, result) {
    const [{ lossesByCause }, { conditionOf, costsSection }, { openFence, strandNode }] = await Promise.all([
      import('@postvolt/core/studies'),
      import('@postvolt/report'),
      import('@postvolt/core'),
    ]);
    const condition = conditionOf(result);
    const fence = openFence(plan, condition.id);
    return costsSection(result, lossesByCause(fence, strandNode(fence.layout, condition.verdict.weakest)));
  },
  async spread(plan, result, onProgress) {
    const [{ spread }, { spreadSection }] = await load();
    return spreadSection(plan, result, await spread(plan, { draws, onProgress, conditions: conditionsOf(result) }));
  },
  async months(plan, _, onProgress) {
    const [{ months }, { monthsSection }] = await load();
    return monthsSection(await months(plan, { onProgress }));
  },
  async insulators(plan, result, onProgress) {
    const [{ compare }, { insulatorsSection }] = await load();
    const compared = await compare(plan, { onProgress, conditions: conditionsOf(result), insulatorYears: {} });
    return insulatorsSection({ ...compared, years: compared.years! });
  },
  async upkeep(plan, result, onProgress) {
    const [{ upkeep }, { upkeepSection }] = await load();
    return upkeepSection(await upkeep(plan, { onProgress, conditions: conditionsOf(result) }));
  },
  async materials(plan) {
    const [{ materials }, { materialsSection }] = await load();
    return materialsSection(materials(plan));
  },
};
