import {
  type ConditionResult,
  formatLength,
  formatVolts,
  type Issue,
  type PlanResult,
  type ResolvedPlan,
} from '@postvolt/core';
import { conditionOf } from '../data/condition-of.js';
import { fenceMap } from '../figures/fence-map.js';
import { leakBars } from '../figures/leak-bars.js';
import { voltsAlong } from '../figures/volts-along.js';
import { voltsBudgetBars } from '../figures/volts-budget-bars.js';
import type { FenceDrawing } from '../geo/drawing.js';
import { fenceDrawing } from '../geo/fence-drawing.js';
import { el, join, Markup } from '../markup/element.js';
import { cautionsSection, limitsSection, warningsSection } from './cautions.js';
import { pageCss } from './page-css.js';
import { readOutScript } from './read-out.js';
import { figureMarkup, type ReportFigure } from './report-figure.js';
import { type ReportTable, tableMarkup } from './table.js';
import * as tables from './tables.js';

/** A part that a study adds to a report. */
export interface ReportSection {
  readonly title: string;
  /** The answer in a sentence. */
  readonly lead: string;
  readonly figures?: readonly ReportFigure[];
  readonly tables?: readonly ReportTable[];
}

/** What a report is written from. */
export interface ReportInput {
  readonly plan: ResolvedPlan;
  readonly result: PlanResult;
  readonly extras?: readonly ReportSection[];
  /** What reading the plan found doubtful. */
  readonly planWarnings?: readonly Issue[];
  /** Last line of the page, such as the plan's file and the day. */
  readonly made?: string;
}

/** Maps of more conditions than this would make the page long; the worst keeps its map. */
const mostMaps = 6;

/**
 * A report as one HTML page that needs nothing else: no network, no font or script from elsewhere. Figures fit a wide
 * screen, a phone and paper, light and dark; every number stands in a table as well.
 */
export function renderReport({ plan, result, extras = [], planWarnings = [], made }: ReportInput): string {
  const worst = conditionOf(result, undefined);
  // Laid out once for all the maps.
  const drawing = fenceDrawing(plan);
  const faults = tables.faultsTable(plan);
  const warnings = warningsSection(result, planWarnings);
  const links = [
    ['volts', 'Volts along the fence'],
    ['fence', 'The fence'],
    ...result.conditions.map(({ name }, i) => [`condition-${i}`, name]),
    ...extras.map(({ title }, i) => [`study-${i}`, title]),
    ['posts', 'Volts at posts'],
    ['amounts', 'What it takes'],
    ...(warnings ? [['warnings', 'Warnings']] : []),
    ['cautions', 'Cautions'],
    ['limits', 'What the model leaves out'],
  ];
  const body = el(
    'main',
    {},
    el('h1', {}, result.title),
    el('p', { class: 'verdict' }, result.sentence),
    el('p', {}, factsOf(plan, result)),
    el(
      'nav',
      { 'aria-label': 'On this page' },
      el(
        'ul',
        {},
        links.map(([id, name]) => el('li', {}, el('a', { href: `#${id}` }, name!))),
      ),
    ),
    tableMarkup(tables.verdictTable(result)),
    el(
      'section',
      {},
      el('h2', { id: 'volts' }, 'Volts along the fence'),
      figureMarkup(
        {
          caption:
            'Volts by distance from the energizer, strong along the way to each weakest post, thin along the other runs',
          draw: (options) => voltsAlong({ plan, result }, options),
        },
        'figure-volts',
      ),
      faults === null ? null : tableMarkup(faults),
    ),
    el('section', {}, el('h2', { id: 'fence' }, 'The fence'), mapOf(plan, result, worst, drawing, 'figure-fence')),
    result.conditions.map((condition, i) =>
      conditionSection(plan, result, condition, i, condition.id === worst.id ? null : drawing),
    ),
    extras.map(extraSection),
    el('section', {}, el('h2', { id: 'posts' }, 'Volts at posts'), tableMarkup(tables.postsTable(result, worst))),
    el(
      'section',
      {},
      el('h2', { id: 'amounts' }, 'What it takes'),
      tableMarkup(tables.countsTable(result)),
      tableMarkup(tables.conditionsTable(plan, result)),
    ),
    warnings,
    cautionsSection(result),
    limitsSection(plan.pulseHz),
    el('p', { class: 'small' }, trustOf(result), made === undefined ? null : ` ${made}`),
  );
  return `<!doctype html>\n${pageOf(result.title, body).text}\n`;
}

function pageOf(title: string, body: Markup): Markup {
  const policy = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'";
  return el(
    'html',
    { lang: 'en' },
    el(
      'head',
      {},
      el('meta', { charset: 'utf-8' }),
      el('meta', { 'http-equiv': 'Content-Security-Policy', content: policy }),
      el('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
      el('meta', { name: 'color-scheme', content: 'light dark' }),
      el('title', {}, `${title}: volts at every post`),
      el('style', {}, new Markup(pageCss())),
    ),
    el('body', {}, body, el('script', {}, new Markup(readOutScript))),
  );
}

const mapOf = (
  plan: ResolvedPlan,
  result: PlanResult,
  condition: ConditionResult,
  drawing: FenceDrawing,
  id: string,
): Markup =>
  figureMarkup(
    {
      caption: `The fence in ${condition.name}: more ink for more volts`,
      draw: (options) => fenceMap({ plan, result, condition: condition.id, drawing }, options),
    },
    id,
  );

function conditionSection(
  plan: ResolvedPlan,
  result: PlanResult,
  condition: ConditionResult,
  index: number,
  /** Null where the map stands elsewhere. */
  drawing: FenceDrawing | null,
): Markup {
  const id = `condition-${index}`;
  return el(
    'section',
    { class: 'condition' },
    el('h2', { id }, condition.name),
    el('p', {}, condition.verdict.sentence),
    figureMarkup(
      {
        caption: 'Where the volts go on the way to the weakest post',
        draw: (options) => voltsBudgetBars({ result, condition }, options),
      },
      `${id}-budget`,
    ),
    figureMarkup(
      {
        caption: 'What takes the current that leaves the hot strands',
        draw: (options) => leakBars({ condition }, options),
      },
      `${id}-leaks`,
    ),
    drawing === null || result.conditions.length > mostMaps
      ? null
      : mapOf(plan, result, condition, drawing, `${id}-fence`),
    tableMarkup(tables.weakestTable(result, condition)),
    el(
      'div',
      { class: 'pair' },
      tableMarkup(tables.energizerTable(condition)),
      tableMarkup(tables.voltsBudgetTable(result, condition)),
    ),
    tableMarkup(tables.leakTable(condition)),
  );
}

const extraSection = ({ title, lead, figures = [], tables = [] }: ReportSection, index: number): Markup =>
  el(
    'section',
    {},
    el('h2', { id: `study-${index}` }, title),
    el('p', {}, lead),
    figures.map((figure, i) => figureMarkup(figure, `study-${index}-figure-${i}`)),
    tables.map(tableMarkup),
  );

function factsOf(plan: ResolvedPlan, result: PlanResult): Markup {
  const { energizer } = plan;
  const loads = energizer.loads.map(
    ({ ohms, volts }) => `${formatVolts(volts.typical)} ${ohms === null ? 'open' : `at ${ohms} Ω`}`,
  );
  const { ground } = energizer;
  const rods =
    ground.kind === 'rods'
      ? `${ground.count} ground ${ground.count === 1 ? 'rod' : 'rods'} of ${formatLength(ground.lengthM, plan.units)}`
      : 'a measured ground';
  const posts = Object.values(result.counts.posts).reduce((sum, count) => sum + count, 0);
  return join(
    `${formatLength(result.counts.runM, plan.units)} of fence on ${posts.toLocaleString('en-US')} posts, fed at ${energizer.junction} by an energizer of ${loads.join(', ')}, with ${rods}. Target: ${formatVolts(result.target.volts)} ${result.target.of} for ${result.target.label}.`,
  );
}

function trustOf({ conditions }: PlanResult): string {
  const worst = Math.max(0, ...conditions.flatMap(({ residuals }) => [residuals.kirchhoff, residuals.powerBalance]));
  return `Currents at every node and the power of the whole fence balance to ${worst.toExponential(0)} of their size.`;
}
