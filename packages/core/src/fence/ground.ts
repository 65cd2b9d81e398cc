import { kindCode } from '../network/elements.js';
import type { FenceNetwork } from '../network/network.js';

/** Number of the element that is the energizer's own ground system. */
export const groundElement = ({ elements }: FenceNetwork): number => elements.kind.indexOf(kindCode['ground system']);
