import { collect, type DefineCommand, planArgument } from '../command.js';
import { withProgress } from '../progress.js';

interface Options {
  readonly condition?: readonly string[];
  readonly by?: string;
  readonly hours?: string;
  readonly money?: string;
  readonly steps?: string;
  readonly untilHolds?: true;
  readonly json?: true;
}

/** `postvolt upkeep`: what to mend first. */
export const upkeep: DefineCommand = (program) =>
  program
    .command('upkeep')
    .summary('what to mend first: repairs by volts won an hour or for money, and the walk')
    .description(
      'Rank repairs and upkeep by the volts that each wins at the weakest post an hour of work or for money, take them one ' +
        'after another, and list them as a walk along the fence. Hours and prices are the plan’s own (`prices`), else ' +
        'invented default rates.',
    )
    .argument(...planArgument)
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect)
    .option('--by <what>', 'rank by hour or by money (default: hour)')
    .option('--hours <number>', 'hours of work at most')
    .option('--money <amount>', 'money at most, materials and work')
    .option('--steps <number>', 'steps at most, up to 100 (default: 12)')
    .option('--until-holds', 'stop as soon as the target holds')
    .option('--json', 'print the result as JSON (SI units)')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options) => {
      const [{ readPlan }, { selectConditions }, studies, rates] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core/studies'),
        import('../read-rates.js'),
      ]);
      const { by, hours, money, steps, untilHolds } = options;
      const asked = {
        ...(by === undefined ? {} : { by: await readBy(by) }),
        ...(hours === undefined ? {} : { mostHours: rates.readPositive('--hours', hours) }),
        ...(money === undefined ? {} : { mostMoney: rates.readPositive('--money', money) }),
        ...(steps === undefined ? {} : { mostSteps: rates.readCount('--steps', steps) }),
        ...(untilHolds === undefined ? {} : { untilHolds }),
      };
      const { plan } = await readPlan(path);
      const result = await withProgress('trying repairs', (onProgress) =>
        studies.upkeep(plan, { onProgress, ...asked, conditions: selectConditions(plan, options.condition) }),
      );
      const [{ writeOut }, { json }, { showUpkeep }, { coloursFor }, { textWidth }] = await Promise.all([
        import('../output.js'),
        import('../text/json.js'),
        import('../show/upkeep.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      if (options.json) return writeOut(json(result));
      return writeOut(showUpkeep(result, { width: textWidth(), colours: coloursFor(process.stdout) }));
    });

async function readBy(text: string): Promise<'hour' | 'money'> {
  const by = text.trim().toLowerCase();
  if (by === 'hour' || by === 'money') return by;
  const { InputError } = await import('../input-error.js');
  throw new InputError(`--by: found ${JSON.stringify(text)}, expected hour or money`);
}

const examples = `
Examples:
  postvolt upkeep home.yaml
  postvolt upkeep home.yaml --hours 8 --condition "wet autumn"
  postvolt upkeep home.yaml --by money --money 200 --until-holds`;
