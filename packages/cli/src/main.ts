import { createRequire } from 'node:module';
import { Command, CommanderError } from 'commander';
import { commands } from './commands.js';
import { ExitCode } from './exit-code.js';
import { forgiveClosedPipes } from './output.js';
import { reportFailure } from './report-failure.js';

/** Runs the command line and sets the process's exit code; never throws, never ends the process itself. */
export async function main(words: readonly string[]): Promise<void> {
  forgiveClosedPipes();
  const { version } = createRequire(import.meta.url)('postvolt/package.json') as { version: string };
  const program = new Command('postvolt')
    .description('How many volts stand at every post of an energized fence, before a post is driven.')
    .version(version, '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .addHelpText('after', about)
    .exitOverride();
  for (const define of commands) define(program).exitOverride();
  try {
    await program.parseAsync(words, { from: 'user' });
  } catch (error) {
    // Commander has already said what was wrong, or printed the help that was asked for.
    if (error instanceof CommanderError)
      process.exitCode = error.exitCode === 0 ? ExitCode.answered : ExitCode.badInput;
    else process.exitCode = await reportFailure(error);
  }
}

const about = `
PLAN is a YAML or JSON file; - reads it from standard input.

Exit codes: 0 the target holds, or the question is answered; 1 Postvolt itself
failed; 2 the input or the command is wrong; 3 the target falls short (solve).
NO_COLOR turns colour off; POSTVOLT_DEBUG shows where a failure arose.`;
