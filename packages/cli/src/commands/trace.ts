import { type DefineCommand, planArgument } from '../command.js';
import { withProgress } from '../progress.js';

interface Options {
  readonly condition?: string;
  readonly meterError?: string;
  readonly voltsOnly?: true;
  readonly seed?: string;
  readonly json?: true;
  readonly output?: string;
}

/** `postvolt trace`: where a fault is, by a fence meter's readings. */
export const trace: DefineCommand = (program) =>
  program
    .command('trace')
    .summary('find a fault by a meter’s readings, and where to read next')
    .description(
      'Find faults by what a fence meter reads: stretches of posts with their chances, likely causes and sizes, and the ' +
        'place where the next reading tells most. Without readings it says where to read first.',
    )
    .argument(...planArgument)
    .argument('[readings]', 'file of readings (YAML, JSON or CSV), or - for standard input')
    .option('-c, --condition <name>', 'the condition that prevails, by id or name')
    .option('--meter-error <share>', 'standard deviation of the meter (default: as the file says, or 5 %)')
    .option('--volts-only', 'the meter shows no amps: advise places for kilovolts alone')
    .option('--seed <number>', 'the same seed gives the same advice (default: 1)')
    .option('--json', 'print the result as JSON (SI units)')
    .option('-o, --output <file>', 'write the figure to a file that ends in .svg')
    .addHelpText('after', examples)
    .action(async (path: string, readingsPath: string | undefined, options: Options) => {
      const [{ readPlan }, { readReadings, noReadings }, studies, { readWhole }, { checkSvg, writeSvg }] =
        await Promise.all([
          import('../read-plan.js'),
          import('../read-readings.js'),
          import('@postvolt/core/studies'),
          import('../read-whole.js'),
          import('../write-svg.js'),
        ]);
      checkSvg(path, options.output);
      const { plan } = await readPlan(path);
      const readings =
        readingsPath === undefined ? noReadings(plan, options) : await readReadings(readingsPath, plan, options);
      const result = await withProgress('looking for the fault', (onProgress) =>
        studies.trace(plan, readings, {
          onProgress,
          ...(options.voltsOnly ? { withAmps: false } : {}),
          ...(options.seed === undefined ? {} : { seed: readWhole('--seed', options.seed) }),
        }),
      );
      if (options.output !== undefined) {
        const { faultCandidates, faultCandidatesInput } = await import('@postvolt/report');
        return writeSvg(options.output, faultCandidates(faultCandidatesInput(plan, result, readings)), result.sentence);
      }
      const [{ writeOut }, { json }, { showTrace }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/trace.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      if (options.json) return writeOut(json(result));
      return writeOut(showTrace(result, { width: textWidth(), colours: coloursFor(process.stdout) }));
    });

const examples = `
Examples:
  postvolt trace home.yaml --condition "wet spring"
  postvolt trace home.yaml round.csv --condition "wet spring"
  postvolt trace home.yaml round.yaml -o where.svg
  postvolt trace calibrated.json round.yaml`;
