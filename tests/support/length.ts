// Tests have a short form, which `npm test` runs, and a long one, which `npm run check` runs: POSTVOLT_TESTS=long.

/** Whether the long form was asked for. */
export const isLong = process.env['POSTVOLT_TESTS'] === 'long';

/** Random cases of a property: a fifth of them in the short form. */
export const runs = (count: number): number => Math.ceil((isLong ? 1 : 0.2) * count);

/** All items in the long form, the first few in the short one. */
export const someOf = <Item>(items: readonly Item[], few: number): Item[] => items.slice(0, isLong ? undefined : few);
