// `npm run docs:pages`: writes the pages of docs/ that follow from the sources: the plan format and the tables.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, setUp } from './setup.mjs';

await setUp();
// Imported only now, since these need installed packages.
const { planFormatPage } = await import('./pages/plan-format.mjs');
const { tablesPage } = await import('./pages/tables.mjs');
const core = await import('../core/dist/index.js');
const tables = await import('../tables/dist/index.js');
const { scenarios } = await import('../scenarios/dist/index.js');

const pages = {
  'plan-format.md': planFormatPage({
    schema: core.documentSchema('plan'),
    plans: scenarios.map(({ plan }) => plan),
  }),
  'tables.md': tablesPage({ tables, rangeFigures: core.rangeFigures }),
};
for (const [name, text] of Object.entries(pages)) {
  writeFileSync(join(root, 'docs', name), text);
  console.log(`docs/${name} is written.`);
}
