import type { Estimate } from '@postvolt/tables';
import { type Issue, wordPath } from '../issue.js';
import type { RangedValue } from '../quantity/ranged.js';

type Path = Issue['path'];

/** A value that the plan entered, with the place where it stands. */
export const entered = (value: RangedValue, unit: string, path: Path): Estimate => ({
  ...value,
  unit,
  basis: 'entered',
  source: `entered at ${wordPath(path)}`,
  fromMemory: false,
});

/** A sure value that the plan entered. */
export const enteredSure = (value: number, unit: string, path: Path): Estimate =>
  entered({ low: value, typical: value, high: value }, unit, path);
