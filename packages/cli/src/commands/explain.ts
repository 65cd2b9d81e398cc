import { collect, type DefineCommand, planArgument } from '../command.js';

interface Options {
  readonly post: string;
  readonly condition?: readonly string[];
  readonly json?: true;
}

/** `postvolt explain`: each resistance at one post, where its value comes from, and its share of the loss. */
export const explain: DefineCommand = (program) =>
  program
    .command('explain')
    .summary('why a post reads what it reads')
    .description('Explain the volts at one post: each resistance there, with its table row, condition and source.')
    .argument(...planArgument)
    .requiredOption('-p, --post <run/number>', 'the post, as results name it: RUN/NUMBER, or a junction')
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect)
    .option('--json', 'print the explanation as JSON (SI units)')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options) => {
      const [{ readPlan }, { selectConditions }, { explainPost }] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core'),
      ]);
      const { plan } = await readPlan(path);
      const conditions = selectConditions(plan, options.condition);
      const explanations = explainPost(plan, { post: options.post, conditions });
      const [{ writeOut }, { json }, { showExplanations }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/explanation.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      if (options.json) return writeOut(json(explanations));
      const conditionName = (id: string) => plan.conditions.find((condition) => condition.id === id)?.name ?? id;
      return writeOut(
        showExplanations(explanations, { width: textWidth(), colours: coloursFor(process.stdout), conditionName }),
      );
    });

const examples = `
Examples:
  postvolt explain home.yaml --post north/12
  postvolt explain home.yaml --post north/12 --condition "wet spring"`;
