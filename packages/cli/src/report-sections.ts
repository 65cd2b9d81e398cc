import type { PlanResult, ResolvedPlan } from '@postvolt/core';
import type { ReportSection } from '@postvolt/report';

/** Studies that a report can hold besides the volts. */
export const sectionNames = ['costs', 'spread', 'months'] as const;
export type SectionName = (typeof sectionNames)[number];

/** Draws of the spread in a report: enough for whole percents. */
const draws = 2000;

/** The sections of a report, in the order asked for. */
export async function reportSections(
  names: readonly SectionName[],
  plan: ResolvedPlan,
  result: PlanResult,
): Promise<ReportSection[]> {
  const sections: ReportSection[] = [];
  for (const name of names) sections.push(await makers[name](plan, result));
  return sections;
}

type Maker = (plan: ResolvedPlan, result: PlanResult) => Promise<ReportSection>;

const load = () =>
  Promise.all([import('@postvolt/core'), import('@postvolt/core/studies'), import('@postvolt/report')]);

const makers: Record<SectionName, Maker> = {
  async costs(plan, result) {
    const [core, studies, report] = await load();
    const condition = report.conditionOf(result, undefined);
    const { weakest } = condition.verdict;
    const solved = core.solveFence(plan, plan.conditions.find(({ id }) => id === condition.id)!);
    const costs = studies
      .voltsCosts(solved, core.strandNode(solved.fence.layout, weakest))
      .filter(({ volts }) => volts >= 1);
    const [first] = costs;
    return {
      title: 'What costs the weakest post its volts',
      lead:
        first === undefined
          ? `Nothing costs ${weakest.postId} a volt in ${condition.name}.`
          : `In ${condition.name}, ${weakest.postId} would have ${core.formatVolts(first.volts)} more if it were not for one cause: ${first.cause}.`,
      figures: [
        {
          caption: `Volts that ${weakest.postId} would gain in ${condition.name}, were each cause alone gone`,
          draw: (options) =>
            report.gradientBars(
              {
                postId: weakest.postId,
                costs: costs.map(({ cause, volts, places }) => ({ label: cause, note: wordPlaces(places), volts })),
              },
              options,
            ),
        },
      ],
      tables: [
        {
          caption: `What each cause costs ${weakest.postId} in ${condition.name}`,
          columns: [{ head: 'Cause' }, { head: 'Volts', numeric: true }, { head: 'Places', numeric: true }],
          rows: costs.map(({ cause, volts, places }) => [cause, core.formatVolts(volts), core.formatNumber(places, 6)]),
          note: 'The costs do not add up: two leaks shadow each other.',
        },
      ],
    };
  },

  async spread(plan, result) {
    const [core, studies, report] = await load();
    const spread = await studies.spread(plan, { draws, conditions: result.conditions.map(({ id }) => id) });
    const worst = spread.conditions.find(({ id }) => id === report.conditionOf(result, undefined).id)!;
    return {
      title: 'How sure that is',
      lead: spread.sentence,
      figures: [
        {
          caption: 'The weakest post in each condition: eight draws of ten lie in the bar',
          draw: (options) => report.spreadBars({ target: spread.target, rows: report.spreadRows(spread) }, options),
        },
        {
          caption: `Volts along the fence in ${worst.name}, with the band that holds eight draws of ten`,
          draw: (options) =>
            report.voltsAlong({ plan, result, conditions: [worst.id], band: report.spreadBand(worst) }, options),
        },
      ],
      tables: [
        {
          caption: `The weakest post over ${core.formatNumber(spread.draws, 6)} draws of the tables' ranges`,
          columns: [
            { head: 'Condition' },
            ...['P10', 'P50', 'P90', 'Target holds'].map((head) => ({ head, numeric: true })),
          ],
          rows: spread.conditions.map(({ name, weakest: { p10, p50, p90 }, chance }) => [
            name,
            core.formatVolts(p10),
            core.formatVolts(p50),
            core.formatVolts(p90),
            core.formatPercent(100 * chance.share),
          ]),
        },
      ],
    };
  },

  async months(plan) {
    const [core, studies, report] = await load();
    const year = await studies.months(plan);
    return {
      title: 'Through the year',
      lead: year.sentence,
      figures: [
        {
          caption: 'Volts at the weakest post, month by month',
          draw: (options) => report.months(report.monthsInput(year), options),
        },
      ],
      tables: [
        {
          caption: 'The year',
          columns: [
            { head: 'Month' },
            { head: 'Least', numeric: true },
            { head: 'Best', numeric: true },
            { head: 'Target' },
          ],
          rows: year.months.map(({ label, volts, bestVolts, holds }) => [
            label,
            core.formatVolts(volts),
            core.formatVolts(bestVolts),
            holds ? 'holds' : 'falls short',
          ]),
          note: year.notes.join(' '),
        },
      ],
    };
  },
};

const wordPlaces = (places: number): string => (places === 1 ? '1 place' : `${places} places`);
