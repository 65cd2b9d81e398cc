import type { Command } from 'commander';

/**
 * Adds one command, with its arguments, options and action, to the program and returns it.
 * A command's file loads at every start: whatever is heavy is imported inside its action.
 */
export type DefineCommand = (program: Command) => Command;

/** For options that may be given more than once: `.option('--condition <name>', '...', collect)`. */
export const collect = (value: string, earlier: readonly string[] = []): readonly string[] => [...earlier, value];

/** The argument that names the plan, in the same words everywhere. */
export const planArgument = ['<plan>', 'plan file (YAML or JSON), or - for standard input'] as const;
