import type { DefineCommand } from './command.js';
import { change } from './commands/change.js';
import { check } from './commands/check.js';
import { compare } from './commands/compare.js';
import { draft } from './commands/draft.js';
import { explain } from './commands/explain.js';
import { fit } from './commands/fit.js';
import { materials } from './commands/materials.js';
import { months } from './commands/months.js';
import { netlist } from './commands/netlist.js';
import { reach } from './commands/reach.js';
import { readings } from './commands/readings.js';
import { report } from './commands/report.js';
import { scenarios } from './commands/scenarios.js';
import { schema } from './commands/schema.js';
import { solve } from './commands/solve.js';
import { spread } from './commands/spread.js';
import { supply } from './commands/supply.js';
import { tables } from './commands/tables.js';
import { trace } from './commands/trace.js';
import { upkeep } from './commands/upkeep.js';

/** In the order in which the help lists them. A new command is a file in `commands/` and a line here. */
export const commands: readonly DefineCommand[] = [
  draft,
  solve,
  report,
  explain,
  reach,
  supply,
  months,
  spread,
  readings,
  fit,
  trace,
  compare,
  change,
  upkeep,
  materials,
  check,
  netlist,
  scenarios,
  schema,
  tables,
];
