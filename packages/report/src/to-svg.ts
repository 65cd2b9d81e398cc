import type { PlanResult, ResolvedPlan } from '@postvolt/core';
import { conditionOf } from './data/condition-of.js';
import { fenceMap } from './figures/fence-map.js';
import { leakBars } from './figures/leak-bars.js';
import { voltsAlong } from './figures/volts-along.js';
import { voltsBudgetBars } from './figures/volts-budget-bars.js';
import type { FigureOptions } from './look/figure.js';

/** Names of the figures that a solved plan has. */
export const svgNames = ['volts', 'fence', 'leaks', 'budget'] as const;

/** A drawing that stands alone. */
export type SvgName = (typeof svgNames)[number];

/**
 * A figure of a solved plan as an SVG file: `volts` along the fence (all conditions, or the one named), the `fence` as a
 * plan, its `leaks` and its volts `budget` (in the condition named, else in the one with the least margin).
 * Throws a RangeError for a name or condition that there is not.
 */
export function toSvg(
  name: SvgName,
  {
    plan,
    result,
    condition,
  }: { readonly plan: ResolvedPlan; readonly result: PlanResult; readonly condition?: string },
  options: FigureOptions = {},
): string {
  const solved = conditionOf(result, condition);
  switch (name) {
    case 'volts':
      return voltsAlong({ plan, result, ...(condition === undefined ? {} : { conditions: [condition] }) }, options);
    case 'fence':
      return fenceMap({ plan, result, condition: solved.id }, options);
    case 'leaks':
      return leakBars({ condition: solved }, options);
    case 'budget':
      return voltsBudgetBars({ result, condition: solved }, options);
    default:
      throw new RangeError(`figure: found ${JSON.stringify(name)}, expected one of ${svgNames.join(', ')}`);
  }
}
