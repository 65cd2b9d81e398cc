import {
  type ConditionResult,
  formatAmps,
  formatOhms,
  formatPercent,
  formatVolts,
  type LeakShare,
  type PlanResult,
} from '@postvolt/core';
import { conditionOf, textProfile } from '@postvolt/report/text';
import { isAsciiOnly } from '../text/ascii-only.js';
import type { Colours } from '../text/colours.js';
import { hang } from '../text/lines.js';
import { table } from '../text/table.js';
import { showIssue } from './issues.js';
import { postTable } from './post-table.js';
import { wordBudget } from './volts-budget.js';

/** Leaks below this share of the total are left to `--json`. */
const smallPercent = 0.5;

/** All that a person reads about one condition: verdict, energizer, where the volts and amps go, posts, warnings. */
export function showCondition(
  result: PlanResult,
  condition: ConditionResult,
  options: { readonly all: boolean; readonly width: number; readonly colours: Colours },
): string {
  const { colours, width } = options;
  const { verdict, energizer } = condition;
  const word = verdict.holds ? colours.strong('holds') : colours.alarm('falls short');
  return [
    `${colours.strong(condition.name)}: ${word}`,
    hang('  ', verdict.sentence, width),
    '',
    ...profile(result, condition, width),
    hang(
      '  Energizer  ',
      `${formatVolts(energizer.terminalVolts)} and ${formatAmps(energizer.amps)} at its terminals, into ${formatOhms(energizer.inputOhms)} of fence and ground.`,
      width,
    ),
    hang(
      '  Ground     ',
      `${formatOhms(energizer.groundOhms)}, rises ${formatVolts(energizer.groundRiseVolts)} over remote earth.`,
      width,
    ),
    hang('  Volts      ', wordBudget(condition.voltsBudget, 'at the weakest post'), width),
    '',
    leakTable(condition.leaks, options),
    '',
    postTable(result, condition, options),
    ...condition.warnings.map((issue) => hang('  Warning: ', showIssue(issue), width)),
    '',
  ].join('\n');
}

/** Volts along the fence as a small plot, for the condition that decides. */
function profile(result: PlanResult, condition: ConditionResult, width: number): string[] {
  if (condition !== conditionOf(result)) return [];
  const plot = textProfile(result, condition, { columns: width - 2, ascii: isAsciiOnly() });
  return plot === '' ? [] : [plot.replace(/^/gm, '  '), ''];
}

function leakTable(leaks: readonly LeakShare[], { width, colours }: { width: number; colours: Colours }): string {
  const shown = leaks.filter((leak, i) => i < 3 || leak.percent >= smallPercent).slice(0, 8);
  if (shown.length === 0) return '  Nothing leaks.';
  const rest = leaks.slice(shown.length);
  const rows = shown.map((leak) => ({
    cells: [formatPercent(leak.percent), formatAmps(leak.amps), `${leak.cause}`, leak.places.toLocaleString('en-US')],
  }));
  if (rest.length > 0) {
    const sum = (of: (leak: LeakShare) => number) => rest.reduce((total, leak) => total + of(leak), 0);
    const places = sum((leak) => leak.places).toLocaleString('en-US');
    rows.push({
      cells: [formatPercent(sum((leak) => leak.percent)), formatAmps(sum((leak) => leak.amps)), 'all others', places],
    });
  }
  return table(
    [
      { head: 'Leak', align: 'right' },
      { head: '', align: 'right' },
      { head: 'Cause', gives: true },
      { head: 'Places', align: 'right' },
    ],
    rows,
    { width, indent: '  ', colours },
  );
}
