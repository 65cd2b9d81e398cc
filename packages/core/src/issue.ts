/** One thing that is wrong or doubtful in an input, as data; `wordIssue` puts it in words. */
export interface Issue {
  /** Stable and short, for programs: `unknown-key`, `bad-quantity`, `not-fed` ... */
  readonly code: string;
  readonly severity: 'error' | 'warning';
  /** Where, as keys and indices from the top of the document. */
  readonly path: readonly (string | number)[];
  /** What stood there, in the user's own writing where there is one. */
  readonly found: string;
  /** What would be right. */
  readonly expected: string;
  /** What to do, such as the nearest known name; empty where there is nothing to add. */
  readonly hint: string;
  /** Place in the text the plan was read from, counted from 1; null where the plan came as an object. */
  readonly at: { readonly line: number; readonly column: number } | null;
}

/** Either a value or what is wrong; both may carry warnings. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly issues: readonly Issue[] }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** `runs.north.length` for `['runs', 'north', 'length']`, `strands[1]` for an index; `plan` at the top. */
export function wordPath(path: Issue['path']): string {
  if (path.length === 0) return 'plan';
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : text === '' ? key : `${text}.${key}`),
    '',
  );
}

/** One issue as one or two lines of text; `file` stands before the line number where both are known. */
export function wordIssue(issue: Issue, file = ''): string {
  const place = issue.at ? `${file === '' ? 'line ' : `${file}:`}${issue.at.line}:${issue.at.column}: ` : '';
  const hint = issue.hint === '' ? '' : ` ${issue.hint}`;
  return `${place}${wordPath(issue.path)}: found ${issue.found}, expected ${issue.expected}.${hint}`;
}

/** Thrown by the entry points that throw; `issues` holds the same as data. */
export class PlanError extends Error {
  override readonly name = 'PlanError';
  readonly issues: readonly Issue[];
  constructor(issues: readonly Issue[]) {
    super(issues.map((issue) => wordIssue(issue)).join('\n'));
    this.issues = issues;
  }
}
