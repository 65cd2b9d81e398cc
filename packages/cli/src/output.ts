import { randomBytes } from 'node:crypto';
import { open, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { explainFileError } from './file-error.js';
import { InputError } from './input-error.js';

/** Text whole or piece by piece; results of large fences are longer than the longest string. */
export type Text = string | Iterable<string>;

/** Joins small pieces into ones worth a write. */
function* batches(text: Text): Generator<string> {
  let batch = '';
  for (const piece of typeof text === 'string' ? [text] : text) {
    batch += piece;
    if (batch.length < 2 ** 16) continue;
    yield batch;
    batch = '';
  }
  if (batch !== '') yield batch;
}

/** Keeps a closed pipe from ending the process: streams repeat in an event what their callbacks are told. */
export function forgiveClosedPipes(): void {
  for (const stream of [process.stdout, process.stderr]) stream.on('error', () => {});
}

/** Writes to standard output. A reader that closed the pipe (`| head`) is no failure: the rest is dropped. */
export const writeOut = (text: Text): Promise<void> => write(process.stdout, text);

/** Writes to standard error. */
export const writeErr = (text: Text): Promise<void> => write(process.stderr, text);

async function write(stream: NodeJS.WriteStream, text: Text): Promise<void> {
  for (const batch of batches(text)) {
    const error = await new Promise<NodeJS.ErrnoException | null>((done) => {
      stream.write(batch, (failure) => done(failure ?? null));
    });
    if (error && ['EPIPE', 'EOF', 'ERR_STREAM_DESTROYED'].includes(error.code ?? '')) return;
    if (error) throw new InputError(`cannot write the output: ${explainFileError(error)}`);
  }
}

/**
 * Writes a file whole or not at all: beside it first, then in its place.
 * @throws InputError where the place cannot be written.
 */
export async function writeFileWhole(file: string, text: Text): Promise<void> {
  let beside = '';
  try {
    const there = await stat(file).catch(() => null);
    if (there?.isDirectory()) throw new InputError(`cannot write ${file}: it is a folder`);
    // A pipe or a device is written to, not replaced.
    if (there && !there.isFile()) return await fill(file, 'w', text);
    const target = there ? await realpath(file) : file;
    beside = join(dirname(target), `.${basename(target)}.${randomBytes(6).toString('hex')}`);
    await fill(beside, 'wx', text, there?.mode);
    await rename(beside, target);
  } catch (error) {
    if (beside !== '') await rm(beside, { force: true });
    if (error instanceof InputError) throw error;
    throw new InputError(`cannot write ${file}: ${explainFileError(error)}`);
  }
}

async function fill(file: string, flags: 'w' | 'wx', text: Text, mode?: number): Promise<void> {
  const handle = await open(file, flags);
  try {
    for (const batch of batches(text)) await handle.appendFile(batch);
    // Some disks know no permissions.
    if (mode !== undefined) await handle.chmod(mode & 0o777).catch(() => {});
    if (flags === 'wx') await handle.sync();
  } finally {
    await handle.close();
  }
}
