import { collect, type DefineCommand, planArgument } from '../command.js';
import { withProgress } from '../progress.js';

interface Options {
  readonly condition?: readonly string[];
  readonly meterError?: string;
  readonly seed?: string;
  readonly json?: true;
  readonly csv?: true;
  readonly output?: string;
}

/** `postvolt readings`: what a fence meter should show, as a sheet for the pocket. */
export const readings: DefineCommand = (program) =>
  program
    .command('readings')
    .summary('what a meter should show at gates, corners and ends')
    .description(
      'Print a sheet for the pocket: the kilovolts and amps that a fence meter should show at every gate, corner, ' +
        'junction and end of a sound fence, with the likely range and a blank to fill in. A CSV sheet, filled in, is ' +
        'what fit and trace read.',
    )
    .argument(...planArgument)
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect)
    .option('--meter-error <share>', 'standard deviation of the meter (default: 5 %)')
    .option('--seed <number>', 'the same seed gives the same ranges (default: 1)')
    .option('--json', 'print the result as JSON (SI units)')
    .option('--csv', 'print a sheet to fill in as CSV (of one condition)')
    .option('-o, --output <file>', 'write to a file, whole or not at all')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options, command) => {
      if (options.json && options.csv) command.error("error: options '--json' and '--csv' exclude each other");
      const [{ readPlan }, { selectConditions }, studies, { readWhole }, { readMeterError }] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core/studies'),
        import('../read-whole.js'),
        import('../read-readings.js'),
      ]);
      const { plan } = await readPlan(path);
      const conditions = selectConditions(plan, options.condition);
      if (options.csv && conditions.length > 1) {
        const { InputError } = await import('../input-error.js');
        throw new InputError(
          `--csv: found ${conditions.length} conditions, expected one; choose it with --condition NAME`,
        );
      }
      const { meterError, seed, output } = options;
      const result = await withProgress('working out the sheet', (onProgress) =>
        studies.expectedReadings(plan, {
          onProgress,
          conditions,
          ...(meterError === undefined ? {} : { meterErrorPercent: readMeterError(meterError) }),
          ...(seed === undefined ? {} : { seed: readWhole('--seed', seed) }),
        }),
      );
      const [{ writeOut, writeFileWhole }, { json }, { showSheets }, { sheetCsv }, { coloursFor, noColours }, lines] =
        await Promise.all([
          import('../output.js'),
          import('../text/json.js'),
          import('../show/sheet.js'),
          import('../show/sheet-csv.js'),
          import('../text/colours.js'),
          import('../text/lines.js'),
        ]);
      const text = (colours = noColours, width = 80) =>
        options.json ? json(result) : options.csv ? sheetCsv(result) : showSheets(result, { width, colours });
      if (output === undefined) return writeOut(text(coloursFor(process.stdout), lines.textWidth()));
      const { refuseToOverwrite } = await import('../refuse-to-overwrite.js');
      refuseToOverwrite(path, output);
      await writeFileWhole(output, text());
      return writeOut(`${lines.hang('', result.sentence, lines.textWidth())}\nWrote ${output}.\n`);
    });

const examples = `
Examples:
  postvolt readings home.yaml --condition "wet spring"
  postvolt readings home.yaml --condition "wet spring" --csv -o round.csv`;
