/** Work shorter than this shows nothing. */
const patienceMs = 500;

/** Back to the start of the line, and nothing on it. */
const clear = '\r\u001b[2K';

/**
 * Runs work that says how far it is, 0 to 1, and shows that on standard error, if that is a terminal; the line is gone
 * when the work ends, however it ends.
 */
export async function withProgress<T>(
  what: string,
  work: (onProgress: (done: number) => void) => Promise<T>,
): Promise<T> {
  const { stderr } = process;
  if (!stderr.isTTY) return work(() => {});
  const started = performance.now();
  let shown = -1;
  try {
    return await work((done) => {
      const percent = Math.floor(100 * done);
      if (percent === shown || performance.now() - started < patienceMs) return;
      shown = percent;
      stderr.write(`${clear}${what}: ${percent} %`);
    });
  } finally {
    if (shown >= 0) stderr.write(clear);
  }
}
