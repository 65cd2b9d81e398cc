/** How a long task is watched and stopped. */
export interface TaskOptions {
  /** An `AbortSignal`: aborting it rejects with the signal's reason. */
  readonly signal?:
    | {
        /** Throws the signal's reason where it is aborted. */
        throwIfAborted(): void;
      }
    | undefined;
  /** Called now and then with the share done, 0 to 1. */
  readonly onProgress?: ((done: number) => void) | undefined;
}

// The one global that every browser, worker and Node have and the language's own library does not declare.
declare function setTimeout(callback: () => void): unknown;

/** Longest stretch of work between two looks at the signal, ms: about one frame of a screen. */
const STRETCH_MS = 16;

/** Lets a long task give way to other work, report progress and be aborted: await `step` wherever it may pause. */
export class Pacer {
  readonly #options: TaskOptions;
  #since = Date.now();

  /** Throws the signal's reason if it is aborted already. */
  constructor(options: TaskOptions) {
    this.#options = options;
    options.signal?.throwIfAborted();
  }

  /** Whether it is time to pause; a cheap look at the clock, so that a loop need not await at every turn. */
  get due(): boolean {
    return Date.now() - this.#since >= STRETCH_MS;
  }

  /** Reports the share done and gives way; throws the signal's reason if it was aborted. */
  async step(done: number): Promise<void> {
    this.#options.onProgress?.(done);
    await new Promise<void>((resolve) => setTimeout(resolve));
    this.#options.signal?.throwIfAborted();
    this.#since = Date.now();
  }
}
