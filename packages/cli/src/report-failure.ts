import type { Issue } from '@postvolt/core';
import { ExitCode } from './exit-code.js';
import { InputError } from './input-error.js';
import { writeErr } from './output.js';

/** Says on standard error what went wrong, and returns the exit code that it calls for. */
export async function reportFailure(error: unknown): Promise<ExitCode> {
  if (process.env['POSTVOLT_DEBUG'] && error instanceof Error) await writeErr(`${error.stack}\n`);
  if (error instanceof InputError) {
    await writeErr(`postvolt: ${error.message}\n`);
    return ExitCode.badInput;
  }
  if (hasIssues(error)) {
    const { showErrors } = await import('./show/issues.js');
    await writeErr(showErrors(error.issues, 'file' in error ? String(error.file) : null));
    return ExitCode.badInput;
  }
  const message = error instanceof Error ? error.message : String(error);
  await writeErr(
    `postvolt: Postvolt itself failed: ${message}\n` +
      'This is a defect in Postvolt, not in your plan. Please report it, with the plan and the command.\n' +
      'Set POSTVOLT_DEBUG=1 to see where it arose.\n',
  );
  return ExitCode.failed;
}

/** `PlanIssues`, or core's `PlanError`: by shape, since that class lives where only the commands that need it load it. */
const hasIssues = (error: unknown): error is Error & { readonly issues: readonly Issue[] } =>
  error instanceof Error && 'issues' in error && Array.isArray(error.issues) && /^Plan/.test(error.name);
