import type { Circuit } from '../../engine/circuit.js';
import { kindCode } from '../../network/elements.js';
import type { SolvedFence } from '../../result/solved-fence.js';

/** Siemens of the energizer's own ground system in a solved fence. */
export const groundSiemensOf = ({ fence, siemens }: SolvedFence): number =>
  siemens[fence.elements.kind.indexOf(kindCode['ground system'])]!;

/** Puts another ground system at the ground terminal of a fork of the fence's circuit. */
export function setGround(solved: SolvedFence, fork: Circuit, groundSiemens: number): void {
  const { groundTerminal } = solved.fence.layout;
  const others = solved.circuit.network.leakSiemens[groundTerminal]! - groundSiemensOf(solved);
  // The difference may fall a hair below zero where nothing else leaks there.
  fork.setLeakSiemens(groundTerminal, Math.max(0, others) + groundSiemens);
}
