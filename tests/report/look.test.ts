import { describe, expect, test } from 'vitest';
import { figureCss } from '../../packages/report/src/look/figure-css.js';
import { type Role, roles, themes } from '../../packages/report/src/look/theme.js';

/** Linear light of `#rrggbb` (IEC 61966-2-1). */
const linear = (hex: string) =>
  [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });

/** Contrast ratio of WCAG 2.2. */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const [r, g, b] = linear(hex);
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light! + 0.05) / (dark! + 0.05);
}

/** How people without one kind of cone see linear light (Machado, Oliveira and Fernandes 2009; from memory). */
const blindness = {
  red: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  green: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  blue: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const;

/** Ottosson's Oklab (2020; from memory): distances in it go roughly as seen differences. */
function oklab([r, g, b]: readonly number[]): number[] {
  const cone = (x: number, y: number, z: number) => Math.cbrt(Math.max(0, x * r! + y * g! + z * b!));
  const l = cone(0.4122214708, 0.5363325363, 0.0514459929);
  const m = cone(0.2119034982, 0.6806995451, 0.1073969566);
  const s = cone(0.0883024619, 0.2817188376, 0.6299787005);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

const seen = (hex: string, kind: keyof typeof blindness) =>
  oklab(blindness[kind].map((row) => row.reduce((sum, weight, i) => sum + weight * linear(hex)[i]!, 0)));

const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((value, i) => value - b[i]!));

describe.each(Object.entries(themes))('colours, %s', (_name, theme) => {
  test('text has 4.5:1 and lines have 3:1 against the paper (WCAG 2.2, 1.4.3 and 1.4.11)', () => {
    for (const role of ['ink', 'soft', 'seal'] as const)
      expect(contrast(theme[role], theme.paper)).toBeGreaterThanOrEqual(4.5);
    const lines = roles.filter((role) => /^line|^bar$/.test(role));
    expect(lines.length).toBe(9);
    for (const role of lines) expect(contrast(theme[role], theme.paper)).toBeGreaterThanOrEqual(3);
  });

  test('more volts have more contrast, step by step', () => {
    const steps = Array.from({ length: 9 }, (_, i) => contrast(theme[`volts${i}` as Role], theme.paper));
    for (let i = 1; i < steps.length; i++) expect(steps[i]).toBeGreaterThan(steps[i - 1]! * 1.05);
  });

  // 0.02 in Oklab is about the least difference that is seen side by side (common practice, no source); twice that here.
  test.each(Object.keys(blindness) as (keyof typeof blindness)[])(
    'lines stay apart without the cones for %s',
    (kind) => {
      const lines = roles.filter((role) => /^line\d/.test(role)).map((role) => seen(theme[role], kind));
      lines.forEach((a, i) => {
        for (const b of lines.slice(0, i)) expect(apart(a, b)).toBeGreaterThan(0.04);
      });
    },
  );
});

test('the style sheet names every role for light, dark and print', () => {
  const css = figureCss('svg.pv');
  for (const role of roles) expect(css.split(`--pv-${role}:`).length - 1).toBe(3);
  expect(css).toContain('prefers-color-scheme:dark');
  expect(css).toContain('@media print');
});
