import { type DefineCommand, planArgument } from '../command.js';

interface Options {
  readonly condition?: string;
  readonly meterError?: string;
  readonly all?: true;
  readonly json?: true;
  readonly output?: string;
}

/** `postvolt fit`: the tables calibrated to a fence meter's readings. */
export const fit: DefineCommand = (program) =>
  program
    .command('fit')
    .summary('calibrate the tables to a meter’s readings')
    .description(
      'Take a fence meter’s readings of a sound fence back and calibrate the uncertain table values to this fence: ' +
        'before, after, and what the readings could not tell. The calibrated plan can be kept and used in place of the plan.',
    )
    .argument(...planArgument)
    .argument('<readings>', 'file of readings (YAML, JSON or CSV), or - for standard input')
    .option('-c, --condition <name>', 'the condition that prevailed, by id or name')
    .option('--meter-error <share>', 'standard deviation of the meter (default: as the file says, or 5 %)')
    .option('-a, --all', 'list every group of values, told or not')
    .option('--json', 'print the result as JSON (SI units)')
    .option('-o, --output <file>', 'write the calibrated plan as JSON, to use in place of the plan')
    .addHelpText('after', examples)
    .action(async (path: string, readingsPath: string, options: Options) => {
      const [{ readPlan }, { readReadings }, studies] = await Promise.all([
        import('../read-plan.js'),
        import('../read-readings.js'),
        import('@postvolt/core/studies'),
      ]);
      const { plan } = await readPlan(path);
      const result = studies.fit(plan, await readReadings(readingsPath, plan, options));
      const [{ writeOut, writeFileWhole }, { json }, { showFit }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/fit.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      const { output } = options;
      if (output !== undefined) {
        const { refuseToOverwrite } = await import('../refuse-to-overwrite.js');
        refuseToOverwrite(path, output);
        refuseToOverwrite(readingsPath, output);
        await writeFileWhole(output, json(studies.applyFit(plan, result), 2));
      }
      const look = { all: options.all === true, width: textWidth(), colours: coloursFor(process.stdout) };
      await writeOut(options.json ? json(result) : showFit(result, look));
      if (output !== undefined && !options.json) await writeOut(`\nWrote the calibrated plan to ${output}.\n`);
    });

const examples = `
Examples:
  postvolt fit home.yaml round.csv --condition "wet spring"
  postvolt fit home.yaml round.yaml -o calibrated.json
  postvolt solve calibrated.json`;
