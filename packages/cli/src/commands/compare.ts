import { changesHelp } from '../changes-help.js';
import { collect, type DefineCommand, planArgument } from '../command.js';
import { withProgress } from '../progress.js';

interface Options {
  readonly with?: readonly string[];
  readonly variants?: string;
  readonly condition?: readonly string[];
  readonly insulators?: true;
  readonly years?: string;
  readonly json?: true;
  readonly output?: string;
}

/** `postvolt compare`: a plan beside itself with changes. */
export const compare: DefineCommand = (program) =>
  program
    .command('compare')
    .summary('what if: changes side by side, in volts, materials and cost')
    .description(
      'Set variants of a plan side by side: the weakest post and its margin, what leaks most, what each costs over the ' +
        'plan as it is. With --insulators, also follow kinds of insulator through years of wear and replacement.',
    )
    .argument(...planArgument)
    .option('-w, --with <changes>', 'a variant: one change or several after commas; may be repeated', collect)
    .option('--variants <file>', 'variants of a YAML file: a map from names to changes')
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect)
    .option('-i, --insulators', 'kinds of insulator year by year')
    .option('--years <number>', 'years to follow them (default: 25)')
    .option('--json', 'print the result as JSON (SI units)')
    .option('-o, --output <file>', 'write the figure to a file that ends in .svg; with --insulators that of the years')
    .addHelpText('after', help)
    .action(async (path: string, options: Options) => {
      const [{ readPlan }, { selectConditions }, studies, { readVariants }, { readYears }, { checkSvg, writeSvg }] =
        await Promise.all([
          import('../read-plan.js'),
          import('../select-conditions.js'),
          import('@postvolt/core/studies'),
          import('../read-variants.js'),
          import('../read-rates.js'),
          import('../write-svg.js'),
        ]);
      const { output, insulators, years } = options;
      checkSvg(path, output);
      const followed = years === undefined ? undefined : readYears('--years', years);
      const variants = await readVariants(options.variants, options.with ?? []);
      const { plan } = await readPlan(path);
      const result = await withProgress('comparing', (onProgress) =>
        studies.compare(plan, {
          onProgress,
          variants,
          conditions: selectConditions(plan, options.condition),
          ...(insulators === undefined && followed === undefined
            ? {}
            : { insulatorYears: followed === undefined ? {} : { years: followed } }),
        }),
      );
      if (output !== undefined) {
        const report = await import('@postvolt/report');
        const svg =
          result.years === null
            ? report.comparison(report.comparisonInput(result))
            : report.yearLines(report.yearLinesInput(result));
        return writeSvg(output, svg, result.sentence);
      }
      const [{ writeOut }, { json }, { showChangeHint, showCompare }, { coloursFor }, { textWidth }] =
        await Promise.all([
          import('../output.js'),
          import('../text/json.js'),
          import('../show/compare.js'),
          import('../text/colours.js'),
          import('../text/lines.js'),
        ]);
      if (options.json) return writeOut(json(result));
      const width = textWidth();
      await writeOut(showCompare(result, { width, colours: coloursFor(process.stdout) }));
      if (path !== '-') await writeOut(showChangeHint(result, path, options.with ?? [], width));
    });

const help = `${changesHelp}

Examples:
  postvolt compare home.yaml --with "rods +2" --with spray --with "spray, rods +2"
  postvolt compare home.yaml --with "insulator porcelain doughnut on west"
  postvolt compare home.yaml --variants ideas.yaml -o ideas.svg
  postvolt compare home.yaml --insulators --years 25`;
