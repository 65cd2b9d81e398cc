import { type Issue, type Outcome, type ResolvedPlan, solvePlan, spanCount, wordIssue } from '@postvolt/core';

/** Most posts of a plan that the fuzzer solves; larger ones are legal and only slow. */
const mostSolved = 2000;

/** What no message to a person may hold. */
const unclear = /undefined|\[object|NaN|Infinity|TypeError|Cannot read|is not a function|ZodError|Invalid input/;

function clearIssue(issue: Issue): string | null {
  const text = wordIssue(issue);
  if (issue.code === '' || issue.expected === '' || issue.found === '')
    return `an empty part: ${JSON.stringify(issue)}`;
  // What was found, and names in quotes or hints, come from the input, which may say anything.
  const own = `${issue.code} ${issue.expected}`.replace(/"[^"]*"/g, '');
  return unclear.test(own) ? `unclear: ${text}` : null;
}

/** Why an outcome is not what a reader owes: an answer, or clear errors; null where it is. */
export function fault(outcome: Outcome<ResolvedPlan>): string | null {
  if (!outcome.ok) {
    if (!outcome.issues.some((issue) => issue.severity === 'error')) return 'refused without an error';
    return outcome.issues.map(clearIssue).find((text) => text !== null) ?? null;
  }
  const plan = outcome.value;
  if (plan.runs.reduce((sum, run) => sum + spanCount(run), 0) > mostSolved) return null;
  for (const condition of solvePlan(plan).conditions) {
    const { verdict, residuals, energizer } = condition;
    if (unclear.test(verdict.sentence)) return `unclear: ${verdict.sentence}`;
    if (!Number.isFinite(verdict.weakest.voltsToEarth)) return 'volts that are no number';
    if (verdict.weakest.voltsToEarth > energizer.openVolts * (1 + 1e-9)) return 'more volts than the energizer has';
    if (!(residuals.kirchhoff < 1e-6)) return `currents that do not add up: ${residuals.kirchhoff}`;
  }
  return null;
}
