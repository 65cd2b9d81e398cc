// What a terminal needs: nothing here loads the figures.
export { conditionOf } from './data/condition-of.js';
export { thinPosts, weakestByRun } from './data/thin-posts.js';
export { csvLines, toCsv } from './interchange/csv.js';
export { csvLine } from './interchange/csv-line.js';
export { type TextProfileOptions, textProfile } from './text/text-profile.js';
