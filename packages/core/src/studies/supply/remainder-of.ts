import type { SolvedFence } from '../../result/solved-fence.js';
import type { HotPosts } from '../spread/hot-posts.js';
import { LinearRemainder } from './linear-remainder.js';
import type { Remainder } from './remainder.js';
import { SparkingRemainder } from './sparking-remainder.js';

/** The remainder of a solved fence: two terminals' worth of numbers, or the circuit itself where sparks bend it. */
export const remainderOf = (solved: SolvedFence, hot: HotPosts): Remainder =>
  solved.circuit.network.gaps === undefined ? new LinearRemainder(solved, hot) : new SparkingRemainder(solved, hot);
