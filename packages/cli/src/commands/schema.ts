import { Argument } from 'commander';
import type { DefineCommand } from '../command.js';

/** Kept beside core's list, which is too heavy to load for the help; a test holds the two together. */
export const schemaKinds = ['plan', 'resolved-plan', 'result'] as const;

/** `postvolt schema`: JSON Schema of the documents that Postvolt reads and writes. */
export const schema: DefineCommand = (program) =>
  program
    .command('schema')
    .summary('JSON Schema of plans and results, for editors and other tools')
    .description(
      'Print the JSON Schema (2020-12) of a document: the plan as a person writes it, the resolved plan in SI units, or ' +
        'the result of solve --json. Editors complete and check plans with it.',
    )
    .addArgument(new Argument('[document]', 'which document').choices(schemaKinds).default('plan'))
    .addHelpText('after', examples)
    .action(async (kind: (typeof schemaKinds)[number]) => {
      const [{ documentSchema }, { writeOut }, { json }] = await Promise.all([
        import('@postvolt/core'),
        import('../output.js'),
        import('../text/json.js'),
      ]);
      return writeOut(json(documentSchema(kind), 3));
    });

const examples = `
Examples:
  postvolt schema > plan.schema.json
  postvolt schema result > result.schema.json

An editor with YAML support checks a plan whose first line is
  # yaml-language-server: $schema=./plan.schema.json`;
