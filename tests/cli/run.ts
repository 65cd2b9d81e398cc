import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { fileURLToPath, pathToFileURL } from 'node:url';
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
  /** Run in a process of its own. */
  readonly alone?: boolean;
  /** Options of Node itself. */
  readonly node?: readonly string[];
}

/** Environment of every run: nothing of the tester's own taste or of the machine that runs the tests. */
function environment(own: Options['env'] = {}): NodeJS.ProcessEnv {
  const { CI: _ci, NO_COLOR: _noColor, FORCE_COLOR: _force, POSTVOLT_DEBUG: _debug, ...env } = process.env;
  return { ...env, ...own };
}

/**
 * Runs the built command line, with no terminal, and waits for its end. Commands run one after another in this process,
 * which spares the start of Node; one that needs a process of its own has it with `closeOutput`, `node` or `alone`.
 */
export function postvolt(words: readonly string[], options: Options = {}): Promise<Ended> {
  if (options.closeOutput || options.node || options.alone) return inOwnProcess(words, options);
  const run = turn.then(() => inThisProcess(words, options));
  turn = run.catch(() => {});
  return run;
}

let turn: Promise<unknown> = Promise.resolve();
interface Built {
  readonly main: (words: readonly string[]) => Promise<void>;
}
let main: Built['main'] | undefined;

async function inThisProcess(words: readonly string[], { input = '', env, cwd }: Options): Promise<Ended> {
  main ??= ((await import(/* @vite-ignore */ pathToFileURL(join(program, '../../dist/main.js')).href)) as Built).main;
  const written = { stdout: '', stderr: '' };
  const before = {
    ...{ env: process.env, cwd: process.cwd(), exitCode: process.exitCode },
    stdin: Object.getOwnPropertyDescriptor(process, 'stdin')!,
    writes: { stdout: process.stdout.write, stderr: process.stderr.write },
  };
  for (const name of ['stdout', 'stderr'] as const) {
    process[name].setMaxListeners(0);
    process[name].write = ((chunk: string, done?: () => void) => {
      written[name] += chunk;
      done?.();
      return true;
    }) as typeof process.stdout.write;
  }
  process.env = environment(env);
  process.exitCode = undefined;
  Object.defineProperty(process, 'stdin', { ...before.stdin, get: () => Readable.from([Buffer.from(input)]) });
  try {
    if (cwd !== undefined) process.chdir(cwd);
    await main(words);
    return { code: Number(process.exitCode ?? 0), ...written };
  } finally {
    process.chdir(before.cwd);
    process.env = before.env;
    process.exitCode = before.exitCode;
    Object.defineProperty(process, 'stdin', before.stdin);
    for (const name of ['stdout', 'stderr'] as const) process[name].write = before.writes[name];
  }
}

function inOwnProcess(words: readonly string[], options: Options): Promise<Ended> {
  const child = spawn(process.execPath, [...(options.node ?? []), program, ...words], {
    cwd: options.cwd,
    env: environment(options.env),
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
