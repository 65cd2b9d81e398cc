import type { Issue } from '../issue.js';
import type { ResolvedPlan } from './resolved.js';

type Path = Issue['path'];

const maps = ['junctions', 'runs', 'builds', 'conditions'] as const;
const lists: Readonly<Record<string, string>> = { links: 'cables', strandRods: 'groundedRods' };
const fields: Readonly<Record<string, string>> = {
  fromM: 'from',
  toM: 'to',
  heightM: 'height',
  lengthM: 'length',
  spacingM: 'spacing',
  diameterM: 'diameter',
  junction: 'at',
  loads: 'output',
  ground: 'groundRods',
};

/** The place in a plan as a person wrote it, of a place in the resolved plan that was made from it. */
export function toPlanPath(plan: ResolvedPlan, input: unknown, path: Path): Path {
  const [head, index, ...rest] = path;
  if (head === undefined) return path;
  const map = maps.find((name) => name === head);
  const written = (input as Record<string, unknown>)[String(head)];
  const isMap = map !== undefined && typeof index === 'number' && !Array.isArray(written);
  const place = isMap ? [plan[map][index]!.id] : index === undefined ? [] : [index];
  const steps = [lists[head] ?? head, ...place, ...rest];
  const translated = steps.map((step) =>
    typeof step === 'string' && Object.hasOwn(fields, step) ? fields[step]! : step,
  );
  if (head === 'energizer' && translated[1] === 'output' && plan.energizer.row !== null) translated[1] = 'class';
  if (head === 'switches' || head === 'gates')
    return translated.map((step, i) => (i === 2 && step === 'post' ? 'span' : step));
  if (head === 'faults' && typeof index === 'number' && translated[2] === 'post') {
    const fault = (written as Record<string, unknown>[])[index];
    return fault !== undefined && 'span' in fault ? [...translated.slice(0, 2), 'span'] : translated;
  }
  return translated;
}
