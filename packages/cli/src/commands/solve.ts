import { collect, type DefineCommand, planArgument } from '../command.js';
import { ExitCode } from '../exit-code.js';

interface Options {
  readonly condition?: readonly string[];
  readonly all?: true;
  readonly json?: true;
  readonly csv?: true;
  readonly output?: string;
}

/** `postvolt solve`: the volts at every post, and whether the target holds. */
export const solve: DefineCommand = (program) =>
  program
    .command('solve')
    .summary('volts at every post, and whether the target holds')
    .description(
      'Solve a plan: the volts at every post in each condition, whether the target holds, what eats the rest.',
    )
    .argument(...planArgument)
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect)
    .option('-a, --all', 'list every strand of every post')
    .option('--json', 'print the whole result as JSON (SI units)')
    .option('--csv', 'print one line per strand and post as CSV (SI units)')
    .option('-o, --output <file>', 'write to a file, whole or not at all, and print the verdict')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options, command) => {
      if (options.json && options.csv) command.error("error: options '--json' and '--csv' exclude each other");
      const [{ readPlan }, { selectConditions }, { solvePlan }] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core'),
      ]);
      const { plan, warnings } = await readPlan(path);
      const conditions = selectConditions(plan, options.condition);
      const result = solvePlan(plan, { conditions });
      const { writeSolved } = await import('../write-solved.js');
      await writeSolved(result, { ...options, path, planWarnings: warnings });
      process.exitCode = result.holds ? ExitCode.answered : ExitCode.fallsShort;
    });

const examples = `
Examples:
  postvolt solve home.yaml
  postvolt solve home.yaml --condition "wet spring" --all
  postvolt solve home.yaml --csv -o posts.csv
  postvolt solve - --json < home.yaml`;
