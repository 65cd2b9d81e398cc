import { normalQuantile } from './normal-quantile.js';
import { Random } from './random.js';

/** One value's draws. */
export interface Column {
  /** Rank of each draw among all, 0 the lowest. */
  readonly rank: Uint32Array;
  /** The draw as a standard normal. */
  readonly z: Float32Array;
}

/** Gives the draws of a value by its key. */
export type Hypercube = (key: string) => Column;

/**
 * Latin-hypercube draws (McKay, Beckman and Conover 1979): each value's distribution is cut into as many parts of equal
 * chance as there are draws, and each part is drawn from once, in an order of the value's own.
 *
 * A value's draws follow from the seed and its key alone: another value more or less in the plan leaves them as they are.
 */
export function latinHypercube(draws: number, seed: number): Hypercube {
  const columns = new Map<string, Column>();
  return (key) => {
    const known = columns.get(key);
    if (known !== undefined) return known;
    const random = new Random(`${seed}|${key}`);
    const rank = random.permutation(draws);
    const z = Float32Array.from(rank, (part) => normalQuantile((part + random.next()) / draws));
    const column = { rank, z };
    columns.set(key, column);
    return column;
  };
}
