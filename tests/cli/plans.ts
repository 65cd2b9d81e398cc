import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** A plan that holds in both of its conditions. */
export const holdsFile = fileURLToPath(new URL('../../examples/one-paddock.yaml', import.meta.url));
export const holds = readFileSync(holdsFile, 'utf8');

/** The same fence with a target that it cannot hold on a rainy day, and holds on a dry one. */
export const fallsShort = `${holds.replace('target: cattle', 'target: { volts: 7.9 kV }')}`;

/** The same with names that need quotes in CSV, and one that would clear a terminal's screen. */
export const oddNames = holds
  .replace('title: One paddock', 'title: "One \\e[2J paddock"')
  .replaceAll('lane:', '"lane, \\"upper\\"":')
  .replaceAll('corner', '隅の柱');
