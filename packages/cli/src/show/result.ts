import { formatVolts, type Issue, type PlanResult } from '@postvolt/core';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';
import { showCautions } from './cautions.js';
import { showCondition } from './condition.js';
import { showIssue } from './issues.js';

export interface ResultOptions {
  readonly all: boolean;
  readonly width: number;
  readonly colours: Colours;
  /** What reading the plan found doubtful. */
  readonly planWarnings: readonly Issue[];
}

/** A result for a person at a terminal: the answer in one sentence, conditions side by side, then one by one. */
export function* showResult(result: PlanResult, options: ResultOptions): Generator<string> {
  const { colours, width } = options;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  yield `${plain(result.title)}; target ${formatVolts(result.target.volts)} ${result.target.of} (${plain(result.target.label)}).\n\n`;
  if (result.conditions.length > 1) yield `${sideBySide(result, options)}\n\n`;
  for (const condition of result.conditions) yield `${showCondition(result, condition, options)}\n`;
  const warnings = [...options.planWarnings, ...result.warnings];
  if (warnings.length > 0) {
    yield `${colours.strong('About the plan')}\n`;
    for (const issue of warnings) yield `${hang('  - ', showIssue(issue), width)}\n`;
    yield '\n';
  }
  if (result.cautions.length > 0) yield* showCautions(result.cautions, options);
}

function sideBySide(result: PlanResult, { width, colours }: ResultOptions): string {
  const rows = result.conditions.map(({ name, verdict }) => ({
    cells: [
      name,
      verdict.holds ? 'holds' : 'falls short',
      verdict.weakest.postId,
      formatVolts(verdict.weakest.compared),
      `${verdict.marginVolts > 0 ? '+' : ''}${formatVolts(verdict.marginVolts)}`,
      verdict.largestCause?.cause ?? '',
    ],
    ...(verdict.holds ? {} : { style: colours.alarm }),
  }));
  return table(
    [
      { head: 'Condition', gives: true },
      { head: 'Target' },
      { head: 'Weakest post', gives: true },
      { head: 'Volts', align: 'right' },
      { head: 'Margin', align: 'right' },
      { head: 'Largest leak', gives: true },
    ],
    rows,
    { width, colours },
  );
}
