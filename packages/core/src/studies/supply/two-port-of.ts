import type { OpenFence } from '../../fence/open-fence.js';
import { LinearTwoPort } from './linear-two-port.js';
import { SparkingTwoPort } from './sparking-two-port.js';
import type { TwoPort } from './two-port.js';

/** The remainder of an open fence: two terminals' worth of numbers, or the circuit itself where sparks bend it. */
export const twoPortOf = (fence: OpenFence): TwoPort =>
  fence.circuit.network.gaps === undefined ? new LinearTwoPort(fence) : new SparkingTwoPort(fence);
