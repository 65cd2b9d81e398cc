import type { DefineCommand } from '../command.js';

/** `postvolt tables`: the reference tables, each value with its range, unit, basis and source. */
export const tables: DefineCommand = (program) =>
  program
    .command('tables')
    .summary('the reference tables, with the range, basis and source of each value')
    .description('Show the reference tables: each value with its range, unit, basis and source.')
    .argument('[name]', 'one table, such as wires; the list of tables where it is left out')
    .argument('[row]', 'one row of it, by its name')
    .option('--json', 'print as JSON (SI units)')
    .addHelpText('after', examples)
    .action(async (name: string | undefined, row: string | undefined, options: { readonly json?: true }) => {
      const [
        { selectTable, shownTables },
        { showTable, showTableList },
        { writeOut },
        { json },
        { coloursFor },
        { textWidth },
      ] = await Promise.all([
        import('../select-table.js'),
        import('../show/tables.js'),
        import('../output.js'),
        import('../text/json.js'),
        import('../text/colours.js'),
        import('../text/lines.js'),
      ]);
      const look = { width: textWidth(), colours: coloursFor(process.stdout) };
      if (name === undefined) return writeOut(options.json ? json(shownTables, 3) : showTableList(look));
      const table = selectTable(name, row);
      return writeOut(options.json ? json(table.rows, 2) : showTable(table, look));
    });

const examples = `
Examples:
  postvolt tables
  postvolt tables insulators
  postvolt tables wires "12.5 ga"
  postvolt tables climates temperate`;
