import { type DefineCommand, planArgument } from '../command.js';

/** `postvolt check`: validation and cautions, nothing solved. */
export const check: DefineCommand = (program) =>
  program
    .command('check')
    .summary('validate a plan and list its cautions, solving nothing')
    .description('Check a plan: errors with their place, doubtful inputs, and the cautions that it calls for.')
    .argument(...planArgument)
    .option('--json', 'print issues and cautions as JSON')
    .addHelpText('after', examples)
    .action(async (path: string, options: { readonly json?: true }) => {
      const [{ readPlan }, { cautionsOf, energizerWarnings }] = await Promise.all([
        import('../read-plan.js'),
        import('@postvolt/core'),
      ]);
      const { plan, warnings, file } = await readPlan(path);
      const [{ writeOut }, { json }, { showCheck }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/check.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      const found = {
        title: plan.title,
        warnings: [...warnings, ...energizerWarnings(plan)],
        cautions: cautionsOf(plan),
      };
      if (options.json) return writeOut(json(found, 2));
      return writeOut(showCheck(found, { file, width: textWidth(), colours: coloursFor(process.stdout) }));
    });

const examples = `
Examples:
  postvolt check home.yaml
  postvolt check - < home.yaml`;
