import { changesHelp } from '../changes-help.js';
import { collect, type DefineCommand, planArgument } from '../command.js';

interface Options {
  readonly with: readonly string[];
  readonly inPlace?: true;
  readonly json?: true;
  readonly output?: string;
}

/** `postvolt change`: changes written into a plan's own text. */
export const change: DefineCommand = (program) =>
  program
    .command('change')
    .summary('write changes into a plan, its comments kept')
    .description(
      'Write changes that compare has shown into the plan itself: comments, order and layout of all else stay. The new plan ' +
        'goes to standard output, a file, or over the plan; what the weakest post had and has goes to standard error.',
    )
    .argument(...planArgument)
    .requiredOption(
      '-w, --with <changes>',
      'one change or several after commas; may be repeated, made in order',
      collect,
    )
    .option('-o, --output <file>', 'write the changed plan to a file')
    .option('--in-place', 'write the changed plan over the plan')
    .option('--json', 'print the text with what the weakest post had and has as JSON')
    .addHelpText('after', help)
    .action(async (path: string, options: Options) => {
      const [core, { readChanges }, { changePlanText, readPlanText }, { PlanIssues, readText }, target] =
        await Promise.all([
          import('@postvolt/core'),
          import('@postvolt/core/studies'),
          import('@postvolt/core/yaml'),
          import('../read-plan.js'),
          targetOf(path, options),
        ]);
      const changes = options.with.flatMap((text) => readChanges(text, ['--with']));
      const file = path === '-' ? 'standard input' : path;
      const text = await readText(path, file);
      const read = readPlanText(text, { file });
      if (!read.ok) throw new PlanIssues(read.issues, file);
      const changed = changePlanText(text, changes);
      if (!changed.ok) throw new core.PlanError(changed.issues);
      const { value } = changed;
      const [{ writeErr, writeFileWhole, writeOut }, { json }, { showIssue }, { changeSentence }, { wrap, textWidth }] =
        await Promise.all([
          import('../output.js'),
          import('../text/json.js'),
          import('../show/issues.js'),
          import('../show/change.js'),
          import('../text/lines.js'),
        ]);
      const { sentence, before, after } = changeSentence(core.solvePlan(value.before), core.solvePlan(value.after));
      const isSame = value.text === text;
      if (target !== null && !(isSame && options.inPlace)) await writeFileWhole(target, value.text);
      if (options.json) return writeOut(json({ sentence, before, after, text: value.text }, 2));
      if (target === null) await writeOut(value.text);
      const known = new Set(read.issues.map(({ at: _, ...issue }) => JSON.stringify(issue)));
      for (const issue of changed.issues) {
        const { at: _, ...rest } = issue;
        const key = JSON.stringify(rest);
        if (!known.has(key)) await writeErr(`Warning: ${showIssue(issue, target ?? '')}\n`);
        known.add(key);
      }
      const lead = isSame ? 'The plan has all of that already. ' : '';
      const wrote = target === null || (isSame && options.inPlace) ? '' : ` Wrote ${target}.`;
      await writeErr(`${wrap(`${lead}${sentence}${wrote}`, textWidth(process.stderr.columns)).join('\n')}\n`);
    });

/** The file to write; null for standard output. */
async function targetOf(path: string, { inPlace, output }: Options): Promise<string | null> {
  const [{ InputError }, { refuseToOverwrite }] = await Promise.all([
    import('../input-error.js'),
    import('../refuse-to-overwrite.js'),
  ]);
  if (inPlace && output !== undefined) throw new InputError('found both --output and --in-place, expected one of them');
  if (inPlace && path === '-') throw new InputError('--in-place needs a plan file; standard input has no place');
  if (output !== undefined) refuseToOverwrite(path, output, 'To write over it, say --in-place.');
  return inPlace ? path : (output ?? null);
}

const help = `${changesHelp}

Examples:
  postvolt change home.yaml --with "spray, rods +2" -o better.yaml
  postvolt change home.yaml --with "insulator porcelain doughnut on west"
  postvolt change home.yaml --with "mend on lane" --with "rods 5" --in-place`;
