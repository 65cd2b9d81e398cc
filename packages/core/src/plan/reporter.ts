import type { Issue } from '../issue.js';

type Path = Issue['path'];

/** Issues beyond this number are counted, not kept. */
const mostIssues = 100;

/** Gathers what is wrong or doubtful while a plan is read. */
export class Reporter {
  readonly #issues: Issue[] = [];
  #errors = 0;

  /** True once an error was reported. */
  get failed(): boolean {
    return this.#errors > 0;
  }

  /** What was reported, errors first. */
  get issues(): readonly Issue[] {
    const errors = this.#issues.filter((issue) => issue.severity === 'error');
    return [...errors, ...this.#issues.filter((issue) => issue.severity === 'warning')];
  }

  /** Keeps an error; a hint that takes work to find is passed as a function, called only if the error is kept. */
  error(code: string, path: Path, found: string, expected: string, hint: string | (() => string) = ''): void {
    this.#errors++;
    if (this.#errors === mostIssues + 1) {
      this.#issues.push(
        issue('too-many-issues', 'error', [], `more than ${mostIssues} errors`, 'fewer', 'Mend these first.'),
      );
    }
    if (this.#errors > mostIssues) return;
    const advice = typeof hint === 'string' ? hint : hint();
    this.#issues.push(issue(code, 'error', path, found, expected, advice));
  }

  warn(code: string, path: Path, found: string, expected: string, hint = ''): void {
    if (this.#issues.length < 2 * mostIssues) this.#issues.push(issue(code, 'warning', path, found, expected, hint));
  }

  /** Takes over issues made elsewhere. */
  add(issues: readonly Issue[]): void {
    for (const { severity, code, path, found, expected, hint } of issues) {
      if (severity === 'error') this.error(code, path, found, expected, hint);
      else this.warn(code, path, found, expected, hint);
    }
  }
}

const issue = (
  code: string,
  severity: Issue['severity'],
  path: Path,
  found: string,
  expected: string,
  hint: string,
): Issue => ({ code, severity, path, found, expected, hint, at: null });
