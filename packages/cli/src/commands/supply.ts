import { collect, type DefineCommand, planArgument } from '../command.js';
import { withProgress } from '../progress.js';

interface Options {
  readonly rods?: string;
  readonly shortAt?: string;
  readonly probe?: string;
  readonly soil?: readonly string[];
  readonly condition?: readonly string[];
  readonly json?: true;
}

/** `postvolt supply`: how much energizer and how many rods. */
export const supply: DefineCommand = (program) =>
  program
    .command('supply')
    .summary('how much energizer and how many ground rods the fence needs')
    .description(
      'Find the least energizer output and the fewest ground rods that hold the target in every condition, and the ' +
        'trade-off between the two; simulate the field test of the ground system.',
    )
    .argument(...planArgument)
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect)
    .option('--rods <count>', 'most rods to try (default: 24)')
    .option('--soil <name>', 'take the field test in this soil too; may be repeated', collect)
    .option('--short-at <length>', 'how far off the test shorts the fence (default: 100 m)')
    .option('--probe <length>', 'distance of the probe from the last rod (default: 1 m)')
    .option('--json', 'print the result as JSON (SI units)')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options) => {
      const [{ readPlan }, { selectConditions }, studies, { readLength }, { readWhole }] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core/studies'),
        import('../read-length.js'),
        import('../read-whole.js'),
      ]);
      const { plan } = await readPlan(path);
      const { rods, soil, shortAt, probe } = options;
      const result = await withProgress('trying energizers and rods', (onProgress) =>
        studies.supply(plan, {
          onProgress,
          conditions: selectConditions(plan, options.condition),
          ...(rods === undefined ? {} : { mostRods: readWhole('--rods', rods) }),
          ...(soil === undefined ? {} : { soils: soil }),
          ...(shortAt === undefined ? {} : { shortAtM: readLength('--short-at', shortAt) }),
          ...(probe === undefined ? {} : { probeM: readLength('--probe', probe) }),
        }),
      );
      const [{ writeOut }, { json }, { showSupply }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/supply.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      if (options.json) return writeOut(json(result));
      return writeOut(showSupply(result, { width: textWidth(), colours: coloursFor(process.stdout) }));
    });

const examples = `
Examples:
  postvolt supply home.yaml
  postvolt supply home.yaml --condition "wet spring" --rods 12
  postvolt supply home.yaml --soil clay --soil sand --probe 3ft`;
