import { readFileSync } from 'node:fs';
import * as engine from '@postvolt/core/engine';
import { expect, test } from 'vitest';

test('the example of docs/engine.md runs, and its numbers hang together', () => {
  const text = readFileSync(new URL('../../docs/engine.md', import.meta.url), 'utf8');
  const example = /```js\n([\s\S]*?)```/.exec(text)![1]!;
  const body = example.replace(/^import (\{[^}]*\}) from '@postvolt\/core\/engine';/, 'const $1 = engine;');
  expect(body).not.toContain('import ');
  const run = new Function(
    'engine',
    `${body}\nreturn { volts, amps, segment, nodeOhms, felt, perLeakSiemens, fault, worst, posts };`,
  );
  const { volts, nodeOhms, felt, perLeakSiemens, fault, worst, posts } = run(engine);
  const far = posts[99];
  // The circuit was changed at the end: its own array now holds the volts with the fault.
  expect(volts[far]).toBeCloseTo(fault.volts[0], 6);
  expect(worst[50]).toBeCloseTo(fault.volts[0], 6);
  expect(felt[far]).toBeLessThan(10_000);
  expect(nodeOhms[far]).toBeGreaterThan(nodeOhms[posts[0]]);
  expect(perLeakSiemens[far]).toBeLessThan(0);
});
