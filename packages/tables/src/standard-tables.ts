import { freeze } from './freeze.js';
import { animals } from './rows/animals.js';
import { cautions } from './rows/cautions.js';
import { energizers } from './rows/energizers.js';
import { faults } from './rows/faults.js';
import { films } from './rows/films.js';
import { insulators } from './rows/insulators.js';
import { joints } from './rows/joints.js';
import { posts } from './rows/posts.js';
import { rods } from './rows/rods.js';
import { groundCovers, soils } from './rows/soils.js';
import { growthWetness, vegetation } from './rows/vegetation.js';
import { wires } from './rows/wires.js';
import type { TableSet } from './schema.js';

/** The tables as they come, frozen through; `extendTables` makes a changed set. */
export const standardTables: Readonly<TableSet> = freeze({
  wires,
  insulators,
  films,
  posts,
  soils,
  groundCovers,
  vegetation,
  growthWetness,
  animals,
  energizers,
  rods,
  joints,
  faults,
  cautions,
});
