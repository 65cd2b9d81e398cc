/** What the process says with its exit code. */
export const ExitCode = {
  /** The target holds, or the question is answered. */
  answered: 0,
  /** Postvolt itself failed. */
  failed: 1,
  /** The input or the command is wrong. */
  badInput: 2,
  /** The target falls short in a condition that was asked for. */
  fallsShort: 3,
} as const;

export type ExitCode = (typeof ExitCode)[keyof typeof ExitCode];
