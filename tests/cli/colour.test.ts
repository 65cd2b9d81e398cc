import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { coloursFor } from '../../packages/cli/src/text/colours.js';
import { fallsShort, holdsFile } from './plans.js';
import { postvolt, program } from './run.js';

const csi = '\u001b[';

describe('colour', () => {
  test('is on at a terminal, and off where NO_COLOR is set or the terminal is dumb', () => {
    expect(coloursFor({ isTTY: true }, {}).strong('x')).toContain(csi);
    expect(coloursFor({ isTTY: true }, { NO_COLOR: '' }).strong('x')).toContain(csi);
    for (const env of [{ NO_COLOR: '1' }, { TERM: 'dumb' }]) {
      const { strong, faint, alarm } = coloursFor({ isTTY: true }, env);
      expect([strong('x'), faint('x'), alarm('x')]).toEqual(['x', 'x', 'x']);
    }
    expect(coloursFor({}, {}).alarm('x')).toBe('x');
  });

  test.each([{}, { FORCE_COLOR: '1', CI: 'true' }])('is off in a pipe, with %j', async (env) => {
    const { stdout } = await postvolt(['solve', '-'], { input: fallsShort, env });
    expect(stdout).toContain('falls short');
    expect(stdout).not.toContain(csi);
  });

  const hasScript = spawnSync('script', ['--version'], { encoding: 'utf8' }).stdout?.includes('util-linux') === true;
  test.skipIf(!hasScript)('at a real terminal follows NO_COLOR', () => {
    const at = (env: Record<string, string>) => {
      const { CI: _ci, NO_COLOR: _no, ...rest } = process.env;
      const line = [process.execPath, program, 'solve', holdsFile].map((word) => `'${word}'`).join(' ');
      return spawnSync('script', ['-qec', line, '/dev/null'], {
        encoding: 'utf8',
        env: { ...rest, TERM: 'xterm', ...env },
        stdio: ['ignore', 'pipe', 'pipe'],
      }).stdout;
    };
    expect(at({})).toContain(csi);
    expect(at({ NO_COLOR: '1' })).not.toContain(csi);
  });
});
