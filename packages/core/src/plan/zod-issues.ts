import type { z } from 'zod';
import { either, showFound } from '../quantity/fault.js';
import { faultOf } from './fields.js';
import type { Reporter } from './reporter.js';
import { keysAt, type Schema } from './schema-walk.js';
import { suggestion } from './suggest.js';

type Path = readonly (string | number)[];

/** What stands at a path of the input; undefined where nothing does. */
export function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, key)
        ? (value as Record<PropertyKey, unknown>)[key]
        : undefined,
    input,
  );
}

const wordType: Readonly<Record<string, string>> = {
  object: 'a map',
  record: 'a map',
  array: 'a list',
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  tuple: 'a list',
  null: 'nothing',
};
function wordSize(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const small = issue.code === 'too_small';
  const limit = small ? issue.minimum : issue.maximum;
  if (issue.origin === 'array' || issue.origin === 'map')
    return small ? `a list of ${limit} or more` : `a list of at most ${limit}`;
  if (issue.origin === 'string') return small ? 'text that is not empty' : `text of at most ${limit} letters`;
  const bound = issue.inclusive === false ? (small ? 'above' : 'below') : small ? 'of at least' : 'of at most';
  return `a number ${bound} ${limit}`;
}

/** What a zod issue expected, in words. */
function expectation(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return wordType[issue.expected] ?? issue.expected;
    case 'invalid_value':
      return either(issue.values.map(String));
    case 'too_small':
    case 'too_big':
      return wordSize(issue);
    case 'invalid_format':
      return issue.message;
    case 'invalid_key':
      return issue.issues[0]?.message ?? 'a name';
    case 'invalid_union': {
      // A union told apart by a field names what the field may be, and has no branches.
      if (issue.errors.length === 0 && 'options' in issue) return either((issue.options as unknown[]).map(String));
      const words = issue.errors.map((branch) => expectation(branch[0]!));
      return [...new Set(words)].join(', or ');
    }
    default:
      return issue.message;
  }
}

/** The branch of a union that was meant: the one that fails furthest in, or knows the value's kind. */
function meantBranch(
  issue: z.core.$ZodIssue & { code: 'invalid_union' },
  found: unknown,
): readonly z.core.$ZodIssue[] | null {
  const isMap = typeof found === 'object' && found !== null && !Array.isArray(found);
  const deeper = issue.errors.filter((branch) =>
    branch.some((inner) => inner.path.length > 0 || inner.code === 'unrecognized_keys'),
  );
  if (isMap && deeper.length > 0) return deeper[0]!;
  const sameKind = issue.errors.filter((branch) =>
    branch.every((inner) => inner.path.length > 0 || inner.code !== 'invalid_type'),
  );
  return sameKind.length === 1 ? sameKind[0]! : deeper.length === 1 && typeof found === 'object' ? deeper[0]! : null;
}

/** Reports one zod issue in the product's own words; `schema` supplies the known keys. */
function reportOne(issue: z.core.$ZodIssue, at: Path, schema: Schema, input: unknown, report: Reporter): void {
  const path = [...at, ...issue.path.map((key) => (typeof key === 'number' ? key : String(key)))];
  const found = valueAt(input, path);
  if (issue.code === 'unrecognized_keys') {
    const known = keysAt(schema, path);
    for (const key of issue.keys) {
      report.error('unknown-key', [...path, key], `the key "${key}"`, 'a key of this part of a plan', () =>
        suggestion(key, known),
      );
    }
    return;
  }
  if (issue.code === 'invalid_union') {
    const branch = meantBranch(issue, found);
    if (branch !== null) {
      for (const inner of branch) reportOne(inner, path, schema, input, report);
      return;
    }
  }
  if (found === undefined && issue.code !== 'invalid_key') {
    const fault = faultOf(issue);
    report.error('missing-key', path, 'nothing', fault === null ? expectation(issue) : fault.expected);
    return;
  }
  const fault = faultOf(issue);
  if (fault !== null) report.error(fault.code, path, fault.found, fault.expected, fault.hint);
  else if (issue.code === 'invalid_key')
    report.error('bad-name', path, `the name "${String(path.at(-1)).slice(0, 60)}"`, expectation(issue));
  else {
    const hint =
      issue.code === 'invalid_value' && typeof found === 'string' ? suggestion(found, issue.values.map(String)) : '';
    report.error('bad-value', path, showFound(found), expectation(issue), hint.startsWith('Known') ? '' : hint);
  }
}

/** Reports all that zod found, in the product's own words. */
export function reportZod(issues: readonly z.core.$ZodIssue[], schema: Schema, input: unknown, report: Reporter): void {
  for (const issue of issues) reportOne(issue, [], schema, input, report);
}
