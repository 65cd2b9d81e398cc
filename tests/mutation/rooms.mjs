// Rooms of the code, each with the tests that are its own: a change counts as noticed where one of these fails.
const core = (room) => `packages/core/src/${room}`;
const study = (name, tests = name) => [
  `studies/${name}`,
  { code: `${core(`studies/${name}`)}`, tests: [`studies/${tests}*`, 'studies/sentences*'] },
];

/** By name: folder whose files are changed, and test files below `tests/` without their ending. */
export const rooms = Object.fromEntries([
  ['engine', { code: `${core('engine')}`, tests: ['engine/*'], but: ['engine/{guide,million,peers}'] }],
  ['tables', { code: 'packages/tables/src/physics', tests: ['tables/*'] }],
  ['quantity', { code: `${core('quantity')}`, tests: ['quantity/*'] }],
  ['plan', { code: `${core('plan')}`, tests: ['plan/*'], but: ['plan/change-text*'] }],
  ['yaml', { code: `${core('yaml')}`, tests: ['plan/{change-text,text}*'] }],
  ['network', { code: `${core('network')}`, tests: ['network/*'] }],
  ['fence', { code: `${core('fence')}`, tests: ['fence/*'] }],
  ['result', { code: `${core('result')}`, tests: ['result/*'] }],
  ['report', { code: 'packages/report/src', tests: ['report/*'], but: ['report/browser'] }],
  ['cli', { code: 'packages/cli/src', tests: ['cli/*'] }],
  study('compare'),
  study('draft'),
  study('fit'),
  study('materials'),
  study('meter'),
  study('months'),
  study('reach'),
  study('readings'),
  study('spread'),
  study('supply'),
  study('trace'),
  study('upkeep'),
]);
