import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';

/** The command line as it is installed. */
export const program = fileURLToPath(new URL('../../packages/cli/bin/postvolt.js', import.meta.url));

if (!existsSync(join(program, '../../dist/bin.js'))) throw new Error('build first: npm run build');

export interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

interface Options {
  /** What standard input holds; it is empty otherwise. */
  readonly input?: string | Buffer;
  readonly env?: Readonly<Record<string, string>>;
  readonly cwd?: string;
  /** Close standard output after its first bytes, as `| head` does. */
  readonly closeOutput?: boolean;
  /** Options of Node itself. */
  readonly node?: readonly string[];
}

/** Runs the built command line in a process of its own, with no terminal, and waits for its end. */
export function postvolt(words: readonly string[], options: Options = {}): Promise<Ended> {
  const { CI: _ci, NO_COLOR: _noColor, FORCE_COLOR: _force, POSTVOLT_DEBUG: _debug, ...env } = process.env;
  const child = spawn(process.execPath, [...(options.node ?? []), program, ...words], {
    cwd: options.cwd,
    env: { ...env, ...options.env },
  });
  let stdout = '';
  let stderr = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    stdout += text;
    if (options.closeOutput) child.stdout.destroy();
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    stderr += text;
  });
  // A program that needs no input may end before it is written.
  child.stdin.on('error', () => {}).end(options.input ?? '');
  return new Promise((resolve, reject) => {
    child.on('error', reject).on('close', (code) => resolve({ code, stdout, stderr }));
  });
}

/** A folder for one test. */
export function folder(): string {
  const path = mkdtempSync(join(tmpdir(), 'postvolt-'));
  onTestFinished(() => rmSync(path, { recursive: true, force: true }));
  return path;
}
