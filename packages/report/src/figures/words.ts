import { formatVolts, type PlanResult } from '@postvolt/core';

type Targeted = Pick<PlanResult, 'target'>;

/** `to earth` or `across the animal`: which volts a figure shows. */
export const voltsName = ({ target }: Targeted): string => target.of;

/** `target 3 kV, cattle`. */
export const targetWords = ({ target }: Targeted): string => `target ${formatVolts(target.volts)}, ${target.label}`;

/** `a`, `a; and b`, `a; b; and c`. */
export const wordList = (items: readonly string[]): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join('; ')}; and ${items.at(-1)}`;
