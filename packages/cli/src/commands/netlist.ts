import { type DefineCommand, planArgument } from '../command.js';

interface Options {
  readonly condition?: string;
  readonly output?: string;
}

/** `postvolt netlist`: the network of one condition as a deck for a general circuit simulator. */
export const netlist: DefineCommand = (program) =>
  program
    .command('netlist')
    .summary("the network as a SPICE deck, to check the volts with a simulator of one's own")
    .description(
      "Write the network of one condition, with the energizer's whole output curve, as a SPICE deck. Results (--json, " +
        '--csv) name the node of every strand at every post; volts are to node 0.',
    )
    .argument(...planArgument)
    .option('-c, --condition <name>', 'the condition, by id or name; the first where left out')
    .option('-o, --output <file>', 'write to a file, whole or not at all')
    .addHelpText('after', examples)
    .action(async (path: string, options: Options) => {
      const [
        { readPlan },
        { selectConditions },
        { netlistLines },
        { writeFileWhole, writeOut },
        { refuseToOverwrite },
      ] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core'),
        import('../output.js'),
        import('../refuse-to-overwrite.js'),
      ]);
      const { condition: wanted, output } = options;
      const { plan } = await readPlan(path);
      const id = selectConditions(plan, wanted === undefined ? [] : [wanted])[0]!;
      if (output === undefined) return writeOut(netlistLines(plan, id));
      refuseToOverwrite(path, output);
      await writeFileWhole(output, netlistLines(plan, id));
      await writeOut(`Wrote ${output}: ${plan.title}, condition ${JSON.stringify(id)}.\n`);
    });

const examples = `
Examples:
  postvolt netlist home.yaml --condition "wet spring" -o home.cir
  ngspice -b home.cir`;
