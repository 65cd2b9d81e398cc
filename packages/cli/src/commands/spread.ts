import { collect, type DefineCommand, planArgument } from '../command.js';
import { withProgress } from '../progress.js';

interface Options {
  readonly draws?: string;
  readonly seed?: string;
  readonly condition?: readonly string[];
  readonly all?: true;
  readonly json?: true;
  readonly output?: string;
}

/** `postvolt spread`: how sure the volts are. */
export const spread: DefineCommand = (program) =>
  program
    .command('spread')
    .summary('how sure the volts are, and which uncertain value matters most')
    .description(
      'Carry the ranges of the tables through to the volts: the middle and the likely range at every post, the chance ' +
        'that the target holds, and the uncertain values that matter most.',
    )
    .argument(...planArgument)
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect)
    .option('-n, --draws <count>', 'number of draws, 100 to 100,000 (default: 2000)')
    .option('--seed <number>', 'the same seed gives the same draws (default: 1)')
    .option('-a, --all', 'list every post')
    .option('--json', 'print the result as JSON (SI units)')
    .option('-o, --output <file>', 'write the figure to a file that ends in .svg')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options) => {
      const [{ readPlan }, { selectConditions }, studies, { readWhole }, { checkSvg, writeSvg }] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core/studies'),
        import('../read-whole.js'),
        import('../write-svg.js'),
      ]);
      checkSvg(path, options.output);
      const { plan } = await readPlan(path);
      const { draws, seed, output } = options;
      const result = await withProgress('drawing fences', (onProgress) =>
        studies.spread(plan, {
          onProgress,
          conditions: selectConditions(plan, options.condition),
          ...(draws === undefined ? {} : { draws: readWhole('--draws', draws) }),
          ...(seed === undefined ? {} : { seed: readWhole('--seed', seed) }),
        }),
      );
      if (output !== undefined) {
        const { spreadBars, spreadRows } = await import('@postvolt/report');
        return writeSvg(output, spreadBars({ target: result.target, rows: spreadRows(result) }), result.sentence);
      }
      const [{ writeOut }, { json }, { showSpread }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/spread.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      if (options.json) return writeOut(json(result));
      const look = { all: options.all === true, width: textWidth(), colours: coloursFor(process.stdout) };
      return writeOut(showSpread(result, look));
    });

const examples = `
Examples:
  postvolt spread home.yaml
  postvolt spread home.yaml --condition "wet spring" --draws 10000
  postvolt spread home.yaml --seed 7 --json`;
