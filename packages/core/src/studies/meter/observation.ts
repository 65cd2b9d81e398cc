import type { OpenFence } from '../../fence/open-fence.js';
import { isMetal } from '../../network/elements.js';

/** A place and way of reading: which node the kilovolts are of, which branches the amps are the sum of. */
export interface Probe {
  /** Number of the run and of the post in it. */
  readonly run: number;
  readonly post: number;
  /** Towards the higher post numbers of the run (1) or the lower ones (−1). */
  readonly direction: 1 | -1;
  readonly voltsNode: number;
  /** Branches of the strands clamped, and which way each counts; empty where no wire goes on. */
  readonly branches: readonly { readonly branch: number; readonly from: number; readonly to: number }[];
}

/** One number that a meter shows. */
export type Observation =
  | { readonly kind: 'volts'; readonly probe: Probe }
  | { readonly kind: 'amps'; readonly probe: Probe };

/** Finds the wire between posts: by run and span, the branch of each strand. */
export class WireMap {
  readonly #fence: OpenFence;
  readonly #elementOf = new Map<string, number>();

  constructor(fence: OpenFence) {
    this.#fence = fence;
    const { elements } = fence.network;
    for (let e = 0; e < elements.count; e++) {
      if (!isMetal(elements.kind[e]!) || elements.run[e]! < 0 || elements.lengthM[e] === 0) continue;
      this.#elementOf.set(`${elements.run[e]}|${elements.post[e]}|${elements.strand[e]}`, e);
    }
  }

  /** The highest hot strand of a run. */
  topStrand(run: number): number {
    const { strands } = this.#fence.layout.runs[run]!;
    return strands.reduce(
      (best, strand, s) => (strand.role === 'hot' && (best < 0 || strand.heightM > strands[best]!.heightM) ? s : best),
      -1,
    );
  }

  hotStrands(run: number): number[] {
    return this.#fence.layout.runs[run]!.strands.flatMap(({ role }, s) => (role === 'hot' ? [s] : []));
  }

  /** A reading at a post of a run, of the strands named; volts are of the first of them. */
  probe(run: number, post: number, direction: 1 | -1, strands: readonly number[]): Probe {
    const { layout, elements } = this.#fence.network;
    const { nodes } = layout.runs[run]!;
    const span = direction === 1 ? post : post - 1;
    const branches = strands.flatMap((s) => {
      const e = this.#elementOf.get(`${run}|${span}|${s}`);
      if (e === undefined) return [];
      const [a, b] = [elements.nodeA[e]!, elements.nodeB[e]!];
      const branch = this.#fence.branchOf[e]!;
      return [direction === 1 ? { branch, from: a, to: b } : { branch, from: b, to: a }];
    });
    return { run, post, direction, voltsNode: nodes[strands[0]!]![post]!, branches };
  }
}

/** What a meter shows, of a circuit's volts; `charging` are the volts of `MeterFence.chargingVolts` times the charging current. */
export function observe(
  { kind, probe }: Observation,
  volts: ArrayLike<number>,
  charging: ArrayLike<number>,
  ampsPerMetreVolt: number,
  branchSiemens: ArrayLike<number>,
): number {
  if (kind === 'volts') return volts[probe.voltsNode]!;
  let amps = 0;
  for (const { branch, from, to } of probe.branches) {
    amps += branchSiemens[branch]! * (volts[from]! - volts[to]! + ampsPerMetreVolt * (charging[from]! - charging[to]!));
  }
  return amps;
}
