import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const folder = fileURLToPath(new URL('../../examples/', import.meta.url));
const run = (name: string) => execFileSync(process.execPath, [`${folder}${name}`], { encoding: 'utf8' });

/** What each program must say for its lesson to stand; every program in the folder has a line here. */
const lessons: Record<string, RegExp> = {
  'cancel-a-long-job.mjs': /^stopped: enough$/m,
  'change-and-solve-again.mjs': /with half the ground resistance +(\d\.\d\d) kV/,
  // The fault is on the span from post 96 to the next.
  'follow-the-meter.mjs':
    /^after 6 readings: .* a leak of about \d+ Ω in bank\/9[4-6] to bank\/9[6-9] \(.*; go and look\.$/m,
  'solve-in-a-worker.mjs': /The fence falls short of 3 kV for cattle in wet autumn/,
  'solve-in-si.mjs': /^east side\/33 \d+ V$/m,
};

test('every example has its lesson checked', () => {
  expect(readdirSync(folder).filter((name) => name.endsWith('.mjs'))).toEqual(Object.keys(lessons));
});

test.each(Object.entries(lessons))('%s', (name, lesson) => {
  expect(run(name)).toMatch(lesson);
});

test('a better ground raises the volts, a leak lowers them', () => {
  const volts = [...run('change-and-solve-again.mjs').matchAll(/(\d\.\d\d) kV at the corner/g)].map((m) =>
    Number(m[1]),
  );
  expect(volts).toHaveLength(3);
  expect(volts[1]).toBeGreaterThan(volts[0]!);
  expect(volts[2]).toBeLessThan(volts[0]!);
});
