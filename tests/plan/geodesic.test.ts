import { geodesicM, lineM, readPlan } from '@postvolt/core';
import { expect, it } from 'vitest';
import { planOf } from './small-plan.js';

const degrees = (d: number, m: number, s: number) => d + m / 60 + s / 3600;

// Intergovernmental Committee on Surveying and Mapping, Geocentric Datum of Australia Technical Manual, worked example
// of Vincenty's formulae, Flinders Peak to Buninyong: 54 972.271 m (from memory). It is reckoned on GRS80, whose
// flattening differs from WGS84's in the ninth digit: under 0.1 mm here. Tolerance: its last digit and the 0.00001″ of
// its coordinates, 1 mm together.
it('measures Flinders Peak to Buninyong', () => {
  const flindersPeak = [degrees(144, 25, 29.5244), -degrees(37, 57, 3.7203)] as const;
  const buninyong = [degrees(143, 55, 35.3839), -degrees(37, 39, 10.1561)] as const;
  expect(Math.abs(geodesicM(flindersPeak, buninyong) - 54972.271)).toBeLessThan(1e-3);
});

// C. F. F. Karney, GeodSolve manual: J. F. Kennedy airport to Singapore Changi, 15 347 628 m to the metre (from memory).
it('measures New York to Singapore', () => {
  const kennedy = [-degrees(73, 46, 44), degrees(40, 38, 23)] as const;
  const changi = [degrees(103, 59, 22), degrees(1, 21, 33)] as const;
  expect(Math.abs(geodesicM(kennedy, changi) - 15347628)).toBeLessThan(0.5);
});

// WGS84 by definition: semi-major axis 6 378 137 m (NIMA TR8350.2), so a degree of the equator is 6 378 137 π / 180.
// The quarter meridian of WGS84 is 10 001 965.729 m (NIMA TR8350.2; from memory), to the millimetre.
it('measures the equator and a meridian', () => {
  expect(geodesicM([0, 0], [1, 0])).toBeCloseTo((6378137 * Math.PI) / 180, 6);
  expect(Math.abs(geodesicM([0, 0], [0, 90]) - 10001965.729)).toBeLessThan(1e-3);
});

it('adds up the corners of a run and takes longitude first', () => {
  const line = [
    [8, 47],
    [8.001, 47],
    [8.001, 47.001],
  ] as [number, number][];
  const outcome = readPlan(
    planOf((p) => {
      delete p.runs.north['length'];
      p.runs.north['line'] = line;
    }),
  );
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const run = outcome.value.runs[0]!;
  expect(run.lengthM).toBe(lineM(line));
  // A thousandth of a degree at 47° north: 76.1 m east, 111.2 m north.
  expect(run.lengthM).toBeGreaterThan(186);
  expect(run.lengthM).toBeLessThan(189);
  expect(run.line).toEqual(line);
});

it('takes the straight way between junctions that have places', () => {
  const outcome = readPlan(
    planOf((p) => {
      delete p.runs.north['length'];
      p['junctions'] = { barn: { at: [8, 47] }, corner: { at: [8.005, 47] }, creek: null, hill: {} };
    }),
  );
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  expect(outcome.value.runs[0]!.lengthM).toBe(geodesicM([8, 47], [8.005, 47]));
});

it('doubts a line that ends far from its junction', () => {
  const outcome = readPlan(
    planOf((p) => {
      delete p.runs.north['length'];
      p.runs.north['line'] = [
        [8, 47],
        [8.002, 47],
      ];
      p['junctions'] = { barn: { at: [47, 8] }, corner: null, creek: null, hill: null };
    }),
  );
  expect(outcome.ok).toBe(true);
  expect(outcome.issues.map((issue) => issue.code)).toContain('line-misses-junction');
});
