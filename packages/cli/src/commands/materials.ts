import { type DefineCommand, planArgument } from '../command.js';

interface Options {
  readonly years?: string;
  readonly waste?: string;
  readonly json?: true;
}

/** `postvolt materials`: what a plan takes and costs. */
export const materials: DefineCommand = (program) =>
  program
    .command('materials')
    .summary('what the fence takes: wire by coil, posts, insulators, ends, rods; cost')
    .description(
      'List what a plan takes, what it costs to buy, and what it costs over the years with everything replaced when its ' +
        'service life is over. Prices are the plan’s own (`prices`), else invented default rates.',
    )
    .argument(...planArgument)
    .option('--years <number>', 'years of the life-cycle cost (default: 25)')
    .option('--waste <share>', 'wire bought beyond need, such as 8 % (default: 5 %)')
    .option('--json', 'print the result as JSON (SI units)')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options) => {
      const [{ readPlan }, { readYears, readPart }, studies] = await Promise.all([
        import('../read-plan.js'),
        import('../read-rates.js'),
        import('@postvolt/core/studies'),
      ]);
      const { years, waste } = options;
      const asked = {
        ...(years === undefined ? {} : { years: readYears('--years', years) }),
        ...(waste === undefined ? {} : { waste: readPart('--waste', waste) }),
      };
      const { plan } = await readPlan(path);
      const result = studies.materials(plan, asked);
      const [{ writeOut }, { json }, { showMaterials }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/materials.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      if (options.json) return writeOut(json(result));
      return writeOut(showMaterials(result, { width: textWidth(), colours: coloursFor(process.stdout) }));
    });

const examples = `
Examples:
  postvolt materials home.yaml
  postvolt materials home.yaml --years 40 --waste "8 %"
  postvolt materials home.yaml --json`;
