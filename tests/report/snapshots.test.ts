import { fenceMap, leakBars, voltsAlong, voltsBudgetBars } from '@postvolt/report';
import { describe, expect, test } from 'vitest';
import { drawAll } from './draw-all.js';
import { withInventedVolts } from './invented.js';
import * as plans from './plans.js';

// Looked at whenever they change. Decimals are cut to whole units, so that a last bit on another machine changes nothing.
const normal = (svg: string): string =>
  `${svg
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replace(/-?\d+\.\d+/g, (number) => String(Math.round(Number(number))))
    .replace(/>(?=<(?!\/))/g, '>\n')}\n`;

const placed = withInventedVolts(plans.placed);
const straight = withInventedVolts(plans.straight);
const condition = straight.result.conditions[1]!;

const figures: Record<string, () => string> = {
  'volts-along': () => voltsAlong(placed, { standalone: false }),
  'volts-along-phone': () => voltsAlong(placed, { width: 344, standalone: false }),
  'fence-map-placed': () => fenceMap(placed, { standalone: false }),
  'fence-map-schematic': () => fenceMap(straight, { standalone: false }),
  'leak-bars': () => leakBars({ condition }, { standalone: false }),
  'volts-budget-bars': () => voltsBudgetBars({ result: straight.result, condition }, { standalone: false }),
  ...Object.fromEntries(
    Object.entries(drawAll(straight))
      .filter(([name]) => !['voltsAlong', 'fenceMap', 'leakBars', 'voltsBudgetBars'].includes(name))
      .map(([name, draw]) => [name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`), () => draw({ standalone: false })]),
  ),
};

describe('figures look as they did', () => {
  test.each(Object.entries(figures))('%s', async (name, draw) => {
    await expect(normal(draw())).toMatchFileSnapshot(`snapshots/${name}.svg`);
  });
});
