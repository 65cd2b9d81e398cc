import { type DefineCommand, planArgument } from '../command.js';
import { withProgress } from '../progress.js';

interface Options {
  readonly climate?: string;
  readonly hemisphere?: string;
  readonly growthAtMost?: string;
  readonly json?: true;
  readonly output?: string;
}

/** `postvolt months`: the volts through the year. */
export const months: DefineCommand = (program) =>
  program
    .command('months')
    .summary('volts month by month, and what makes the worst month')
    .description(
      'Reckon the volts at the weakest post through a year of weather and growth: the plan’s own months, or those of a ' +
        'climate. Each month counts by the worst weather that it brings.',
    )
    .argument(...planArgument)
    .option('--climate <name>', 'a climate in place of the plan’s own months (default: temperate)')
    .option('--hemisphere <half>', 'north or south (default: by the places in the plan)')
    .option('--growth-at-most <name>', 'growth that mowing or spraying leaves at most')
    .option('--json', 'print the result as JSON (SI units)')
    .option('-o, --output <file>', 'write the figure to a file that ends in .svg')
    .addHelpText('after', help)
    .action(async (path: string, options: Options) => {
      const [{ readPlan }, studies, { checkSvg, writeSvg }] = await Promise.all([
        import('../read-plan.js'),
        import('@postvolt/core/studies'),
        import('../write-svg.js'),
      ]);
      checkSvg(path, options.output);
      const { climate, hemisphere, growthAtMost, output } = options;
      const half = hemisphere === undefined ? undefined : await readHalf(hemisphere);
      const { plan } = await readPlan(path);
      const result = await withProgress('going through the year', (onProgress) =>
        studies.months(plan, {
          onProgress,
          ...(climate === undefined ? {} : { climate }),
          ...(half === undefined ? {} : { hemisphere: half }),
          ...(growthAtMost === undefined ? {} : { growthAtMost }),
        }),
      );
      if (output !== undefined) {
        const report = await import('@postvolt/report');
        return writeSvg(output, report.months(report.monthsInput(result)), result.sentence);
      }
      const [{ writeOut }, { json }, { showMonths }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/months.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      if (options.json) return writeOut(json(result));
      return writeOut(showMonths(result, { width: textWidth(), colours: coloursFor(process.stdout) }));
    });

async function readHalf(text: string): Promise<'north' | 'south'> {
  const half = text.trim().toLowerCase();
  if (half === 'north' || half === 'south') return half;
  const { InputError } = await import('../input-error.js');
  throw new InputError(`--hemisphere: found ${JSON.stringify(text)}, expected north or south`);
}

const help = `
Climates: temperate, maritime, snowy, semi-arid, dry summer, warm humid.

Examples:
  postvolt months home.yaml
  postvolt months home.yaml --climate "dry summer" --growth-at-most light
  postvolt months home.yaml --hemisphere south -o year.svg`;
