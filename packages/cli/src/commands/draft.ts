import { Option } from 'commander';
import type { DefineCommand } from '../command.js';

interface Options {
  readonly animal: string;
  readonly length?: string;
  readonly map?: string;
  readonly soil: string;
  readonly energizer: string;
  readonly temporary?: true;
  readonly units: 'imperial' | 'metric';
  readonly title?: string;
  readonly output?: string;
  readonly json?: true;
}

/** `postvolt draft`: a plan to start from, out of a few answers, solved at once. */
export const draft: DefineCommand = (program) =>
  program
    .command('draft')
    .summary('a plan to start from, out of a few answers')
    .description(
      'Draft a plan from a few answers: strands and heights usual for the animal, posts, insulators and ground rods that go ' +
        'with them. It is solved at once; the plan itself is commented YAML to be edited.',
    )
    .option('-a, --animal <name>', 'the animal, as in the table of animals', 'cattle')
    .option('-l, --length <length>', 'length of the whole fence, such as "2 mi"; this or --map')
    .option('-m, --map <file>', 'the fence as GeoJSON: a LineString a run')
    .option('-s, --soil <name>', 'the soil, as in the table of soils', 'loam')
    .option('-e, --energizer <class>', 'class of energizer, such as "6 J"', '6 J')
    .option('--temporary', 'fence that is moved, of poly wire on step-in posts')
    .addOption(
      new Option('-u, --units <system>', 'units of the plan').choices(['imperial', 'metric']).default('imperial'),
    )
    .option('--title <text>', 'title of the plan')
    .option('-o, --output <file>', 'write the plan to a file; it must not be there yet')
    .option('--json', 'print plan, pattern and result as JSON')
    .addHelpText('after', examples)
    .action(async (options: Options) => {
      const [
        core,
        { draftPlan },
        { readPlanText },
        { InputError },
        { writeFileWhole, writeOut },
        { readLength },
        { hang, textWidth, wrap },
        { json },
        { existsSync },
      ] = await Promise.all([
        import('@postvolt/core'),
        import('@postvolt/core/studies'),
        import('@postvolt/core/yaml'),
        import('../input-error.js'),
        import('../output.js'),
        import('../read-length.js'),
        import('../text/lines.js'),
        import('../text/json.js'),
        import('node:fs'),
      ]);
      const { animal, soil, energizer, units, title, output } = options;
      if ((options.length === undefined) === (options.map === undefined)) {
        throw new InputError(
          `found ${options.length === undefined ? 'neither --length nor --map' : 'both --length and --map'}, expected one of them, such as --length "2 mi"`,
        );
      }
      if (output !== undefined && existsSync(output))
        throw new InputError(`cannot write ${output}: there is a file of that name already`);
      const drafted = draftPlan({
        animal,
        soil,
        energizer,
        units,
        use: options.temporary ? 'temporary' : 'permanent',
        ...(title === undefined ? {} : { title }),
        ...(options.length === undefined ? {} : { lengthM: readLength('--length', options.length) }),
        ...(options.map === undefined ? {} : { geoJson: await readMap(options.map) }),
      });
      const read = readPlanText(drafted.text);
      if (!read.ok) throw new core.PlanError(read.issues);
      const result = core.solvePlan(read.value);
      if (output !== undefined) await writeFileWhole(output, drafted.text);
      if (options.json)
        return writeOut(
          json(
            { sentence: result.sentence, plan: drafted.text, pattern: drafted.pattern, notes: drafted.notes, result },
            2,
          ),
        );
      const width = textWidth();
      if (output === undefined) {
        // The whole of it is a plan, so that it can be sent to a file or to another command.
        const head = [result.sentence, ...drafted.notes]
          .flatMap((text) => wrap(text, width - 2))
          .map((line) => `# ${line}\n`);
        return writeOut(`${head.join('')}\n${drafted.text}`);
      }
      const notes = drafted.notes.map((note) => hang('  - ', note, width)).join('\n');
      return writeOut(
        `${wrap(result.sentence, width).join('\n')}\n\n${notes}\n\nWrote ${output}. Edit it, then: postvolt solve ${output}\n`,
      );
    });

async function readMap(path: string): Promise<unknown> {
  const [{ readText }, { InputError }] = await Promise.all([import('../read-plan.js'), import('../input-error.js')]);
  const text = await readText(path, path);
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new InputError(`cannot read ${path}: it is not JSON (${(error as Error).message})`);
  }
}

const examples = `
Examples:
  postvolt draft --animal cattle --length "2 mi" --energizer "6 J" -o farm.yaml
  postvolt draft --animal "woolly sheep" --map farm.geojson --units metric
  postvolt draft --animal goats --length 400m --temporary | postvolt solve -`;
