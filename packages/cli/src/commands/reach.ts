import { collect, type DefineCommand, planArgument } from '../command.js';
import { withProgress } from '../progress.js';

interface Options {
  readonly run?: string;
  readonly along?: string;
  readonly most?: string;
  readonly wire?: readonly string[];
  readonly variations: boolean;
  readonly condition?: readonly string[];
  readonly json?: true;
}

/** `postvolt reach`: the longest fence that still holds the target. */
export const reach: DefineCommand = (program) =>
  program
    .command('reach')
    .summary('how far the fence can go and still hold its target')
    .description(
      'Find the longest fence that still holds the target in each condition: all runs longer in proportion, or one. ' +
        'A table shows how that moves with wire, hot strands, posts and the energizer’s place.',
    )
    .argument(...planArgument)
    .option('-r, --run <name>', 'stretch this run alone')
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect)
    .option(
      '--most <length>',
      'longest length to look at (default: 25 mi or 40 km, at least four times the present one)',
    )
    .option('--along <run>', 'move the energizer along this run, by quarters')
    .option('--wire <name>', 'try this wire; may be repeated', collect)
    .option('--no-variations', 'leave out the table of changes')
    .option('--json', 'print the result as JSON (SI units)')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options) => {
      const [{ readPlan }, { selectConditions }, studies, { readLength }] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core/studies'),
        import('../read-length.js'),
      ]);
      const { plan } = await readPlan(path);
      const { run, along, most, wire } = options;
      const result = await withProgress('stretching the fence', (onProgress) =>
        studies.reach(plan, {
          onProgress,
          ...(run === undefined ? {} : { run }),
          ...(most === undefined ? {} : { mostM: readLength('--most', most) }),
          conditions: selectConditions(plan, options.condition),
          variations: options.variations && {
            ...(along === undefined ? {} : { energizerAlong: along }),
            ...(wire === undefined ? {} : { wires: wire }),
          },
        }),
      );
      const [{ writeOut }, { json }, { showReach }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/reach.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      if (options.json) return writeOut(json(result));
      return writeOut(showReach(result, { width: textWidth(), colours: coloursFor(process.stdout) }));
    });

const examples = `
Examples:
  postvolt reach home.yaml
  postvolt reach home.yaml --run north --condition "wet spring"
  postvolt reach home.yaml --wire "14 ga" --wire "10 ga" --along north`;
