import type { z } from 'zod';
import { type Schema, sampleAt } from './schema-walk.js';

type Path = readonly PropertyKey[];
type Container = Record<PropertyKey, unknown>;

/** An input that the schema takes, and the places where something stands in for what was wrong. */
export interface Repaired {
  readonly input: unknown;
  readonly places: readonly Path[];
}

/**
 * Puts something that the schema takes in place of what it refused, so that the rest can be checked in the same go.
 *
 * Null where no more can be told, such as for a refused name, to which other places may refer.
 */
export function repair(input: unknown, issues: readonly z.core.$ZodIssue[], schema: Schema): Repaired | null {
  const copy = structuredClone(input);
  const places: Path[] = [];
  for (const issue of issues) {
    if (issue.code === 'invalid_key' || (issue.path.length === 0 && issue.code !== 'unrecognized_keys')) return null;
    const paths = issue.code === 'unrecognized_keys' ? issue.keys.map((key) => [...issue.path, key]) : [issue.path];
    for (const path of paths) {
      const outer = path.slice(0, -1).reduce<unknown>((at, key) => (at as Container | undefined)?.[key], copy);
      if (typeof outer !== 'object' || outer === null) return null;
      const sample = issue.code === 'unrecognized_keys' ? undefined : sampleAt(schema, path);
      if (sample === undefined) delete (outer as Container)[path.at(-1)!];
      else (outer as Container)[path.at(-1)!] = sample;
      places.push(path);
    }
  }
  return { input: copy, places };
}

/** Whether a path lies at or below an outer one. */
export const isWithin = (path: Path, outer: Path): boolean => outer.every((key, i) => String(key) === String(path[i]));
