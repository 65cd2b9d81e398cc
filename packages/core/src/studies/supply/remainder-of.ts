import type { OpenFence } from '../../fence/open-fence.js';
import { LinearRemainder } from './linear-remainder.js';
import type { Remainder } from './remainder.js';
import { SparkingRemainder } from './sparking-remainder.js';

/** The remainder of an open fence: two terminals' worth of numbers, or the circuit itself where sparks bend it. */
export const remainderOf = (fence: OpenFence): Remainder =>
  fence.circuit.network.gaps === undefined ? new LinearRemainder(fence) : new SparkingRemainder(fence);
