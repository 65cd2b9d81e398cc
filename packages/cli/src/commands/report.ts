import { basename, extname } from 'node:path';
import type { PlanResult, ResolvedPlan } from '@postvolt/core';
import { collect, type DefineCommand, planArgument } from '../command.js';
import { InputError } from '../input-error.js';
import type { Text } from '../output.js';
import type { ReadPlan } from '../read-plan.js';

interface Options {
  readonly output: string;
  readonly condition: readonly string[];
  readonly figure?: string;
  readonly with: readonly string[];
  readonly change: readonly string[];
  readonly readings?: string;
}

/** `postvolt report`: one file to look at, to print or to load into a map. */
export const report: DefineCommand = (program) =>
  program
    .command('report')
    .summary('a page to read and print, a drawing, a map layer or a table of all posts')
    .description(
      'Solve a plan and write what was found to a file, whole or not at all. The ending of its name says which kind.',
    )
    .argument(...planArgument)
    .requiredOption('-o, --output <file>', 'file to write: .html, .svg, .geojson or .csv')
    .option('-c, --condition <name>', 'only this condition, by id or name; may be repeated', collect, [])
    .option('-f, --figure <name>', 'which drawing a .svg holds: volts, fence, leaks or budget (default: volts)')
    .option('-w, --with <study>', 'add a study to a page; may be repeated', collect, [])
    .option('--change <changes>', 'set a variant beside the plan, as in compare; may be repeated', collect, [])
    .option('--readings <file>', 'add what a fence meter’s readings say of faults, as in trace')
    .addHelpText('after', help)
    .action(async (path: string, options: Options) => {
      const kind = kindOf(options.output);
      if (options.figure !== undefined && kind !== '.svg')
        throw new InputError(`--figure goes with a file that ends in .svg, and this is ${options.output}`);
      const studies = { '--with': options.with, '--change': options.change, '--readings': options.readings ?? [] };
      const asked = Object.entries(studies).find(([, given]) => given.length > 0)?.[0];
      if (asked !== undefined && kind !== '.html')
        throw new InputError(`${asked} goes with a file that ends in .html, and this is ${options.output}`);
      const [
        { readPlan },
        { selectConditions },
        { solvePlan },
        { writeFileWhole, writeOut },
        { refuseToOverwrite },
        lines,
      ] = await Promise.all([
        import('../read-plan.js'),
        import('../select-conditions.js'),
        import('@postvolt/core'),
        import('../output.js'),
        import('../refuse-to-overwrite.js'),
        import('../text/lines.js'),
      ]);
      const read = await readPlan(path);
      refuseToOverwrite(path, options.output);
      const conditions = selectConditions(read.plan, options.condition);
      const result = solvePlan(read.plan, { conditions });
      const text = await writers[kind](read, result, options);
      await writeFileWhole(options.output, text);
      await writeOut(`${lines.hang('', result.sentence, lines.textWidth())}\nWrote ${options.output}.\n`);
    });

type Writer = (read: ReadPlan, result: PlanResult, options: Options) => Promise<Text>;

const writers = {
  '.html': async ({ plan, warnings, file }, result, options) => {
    const [{ renderReport }, { reportSections, sectionNames }, { readVariants }, { readReadings }] = await Promise.all([
      import('@postvolt/report'),
      import('../report-sections.js'),
      import('../read-variants.js'),
      import('../read-readings.js'),
    ]);
    const names = await Promise.all(options.with.map((name) => oneOf(sectionNames, name, 'study')));
    const variants = await readVariants(undefined, options.change, '--change');
    // A page of one condition holds readings that were taken in it, unless they say another one; a sheet of CSV cannot.
    const only = options.condition.length === 1 ? { usualCondition: result.conditions[0]!.id } : {};
    const readings = options.readings === undefined ? null : await readReadings(options.readings, plan, only);
    const extras = await reportSections({ names, variants, readings }, plan, result);
    const today = new Date().toLocaleDateString('en-CA');
    return renderReport({
      plan,
      result,
      extras,
      planWarnings: warnings,
      made: `Made from ${basename(file)} on ${today}.`,
    });
  },
  '.svg': async ({ plan }, result, { figure }) => {
    const { svgNames, toSvg } = await import('@postvolt/report');
    const name = await oneOf(svgNames, figure ?? 'volts', 'figure');
    return toSvg(name, { plan, result });
  },
  '.geojson': async ({ plan, file }, result) => geoJson(plan, result, file),
  '.csv': async (_, result) => (await import('@postvolt/report/text')).csvLines(result),
} satisfies Record<string, Writer>;

type Kind = keyof typeof writers;

/** A name out of a list, or an error with the nearest. */
async function oneOf<Name extends string>(names: readonly Name[], name: string, what: string): Promise<Name> {
  const found = names.find((known) => known === name);
  if (found !== undefined) return found;
  const { meant } = await import('../text/meant.js');
  throw new InputError(`no ${what} ${JSON.stringify(name)}; expected one of ${names.join(', ')}.${meant(name, names)}`);
}

function kindOf(output: string): Kind {
  const ending = extname(output).toLowerCase();
  const kind = ending === '.htm' ? '.html' : ending;
  if (Object.hasOwn(writers, kind)) return kind as Kind;
  const found = ending === '' ? 'no ending' : JSON.stringify(ending);
  throw new InputError(
    `cannot tell what to write to ${output}: found ${found}, expected .html, .svg, .geojson or .csv`,
  );
}

async function geoJson(plan: ResolvedPlan, result: PlanResult, file: string): Promise<Text> {
  const [{ toGeoJson }, { PlanIssues }, { json }] = await Promise.all([
    import('@postvolt/report'),
    import('../read-plan.js'),
    import('../text/json.js'),
  ]);
  const outcome = toGeoJson(plan, result);
  if (!outcome.ok) throw new PlanIssues(outcome.issues, file);
  return json(outcome.value, 2);
}

const help = `
A page (.html) holds all conditions and needs nothing beside it. A drawing
(.svg) of the fence, leaks or budget, and a map layer (.geojson, for a plan with
coordinates) hold one condition: the one with the least margin of those asked
for. Studies for --with: costs, spread, months, insulators, upkeep, materials.

Examples:
  postvolt report home.yaml -o home.html
  postvolt report home.yaml -o home.html --with costs --with months
  postvolt report home.yaml -o home.html --change spray --change "rods +2"
  postvolt report home.yaml -o round.html -c "wet spring" --readings round.csv
  postvolt report home.yaml -o fence.svg --figure fence --condition "wet spring"
  postvolt report home.yaml -o home.geojson
  postvolt report home.yaml -o posts.csv`;
