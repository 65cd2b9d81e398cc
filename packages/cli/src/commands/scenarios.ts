import type { DefineCommand } from '../command.js';

interface Options {
  readonly output?: string;
  readonly json?: true;
}

/** `postvolt scenarios`: lists the invented farms, or writes one out to start from. */
export const scenarios: DefineCommand = (program) =>
  program
    .command('scenarios')
    .summary('invented farms to learn from; writes one out to start from')
    .description('List the worked scenarios and what each teaches, or write the plan of one as YAML.')
    .argument('[id]', 'the scenario to write; all are listed where it is left out')
    .option('-o, --output <file>', 'write the plan to a file; it must not be there yet')
    .option('--json', 'list as JSON')
    .addHelpText('after', examples)
    .action(async (id: string | undefined, options: Options) => {
      const [
        all,
        { InputError },
        { writeFileWhole, writeOut },
        { hang, textWidth },
        { json },
        { meant },
        { existsSync },
      ] = await Promise.all([
        import('@postvolt/scenarios'),
        import('../input-error.js'),
        import('../output.js'),
        import('../text/lines.js'),
        import('../text/json.js'),
        import('../text/meant.js'),
        import('node:fs'),
      ]);
      if (id === undefined) {
        if (options.output !== undefined)
          throw new InputError('-o needs the scenario to write: postvolt scenarios ID -o FILE');
        const list = all.scenarios.map(({ id, title, teaches }) => ({ id, title, teaches }));
        if (options.json) return writeOut(json(list, 2));
        const width = textWidth();
        return writeOut(list.map((s) => `${s.id}: ${s.title}\n${hang('  ', s.teaches, width)}\n`).join('\n'));
      }
      const found = all.scenarios.find((known) => known.id === id);
      if (found === undefined) {
        const known = all.scenarios.map((other) => other.id);
        const listed = known.map((name) => JSON.stringify(name)).join(', ');
        throw new InputError(`found scenario ${JSON.stringify(id)}, expected one of ${listed}.${meant(id, known)}`);
      }
      if (options.output === undefined) return writeOut(found.plan);
      if (existsSync(options.output))
        throw new InputError(`cannot write ${options.output}: there is a file of that name already`);
      await writeFileWhole(options.output, found.plan);
      return writeOut(`Wrote ${options.output}: ${found.title}. Next: postvolt solve ${options.output}\n`);
    });

const examples = `
Examples:
  postvolt scenarios
  postvolt scenarios "one wire dairy" -o my-farm.yaml
  postvolt scenarios "demo farm" | postvolt solve -`;
