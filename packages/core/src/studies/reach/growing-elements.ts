import type { FenceChange } from '../../fence/open-fence.js';
import { kindCode, openBy } from '../../network/elements.js';
import { typicalValues } from '../../network/formulas.js';
import type { FenceNetwork } from '../../network/network.js';

/** The elements whose conductance follows the length: spans in their wire, growth in its metres. */
export class GrowingElements {
  readonly #element: Int32Array;
  /** Ohms of a span, siemens of growth: the part that stays, and the part that grows, at ratio 1. */
  readonly #stays: Float64Array;
  readonly #grows: Float64Array;
  readonly #inSeries: Uint8Array;

  /** `ofChosen` says by run whether it is one of those that change their length. */
  constructor(fence: FenceNetwork, ofChosen: readonly boolean[]) {
    const { elements, formulas, parameters } = fence;
    const values = typicalValues(parameters);
    const parts = formulas.map(({ combine, terms }) => {
      let stays = 0;
      let grows = 0;
      for (const { factor, powers } of terms) {
        const value = powers.reduce((product, p) => product * values[p.parameter]! ** p.exponent, factor);
        // A switch or a bad splice stands in the span as it is, whatever the span's length.
        const fixed = powers.some(({ parameter }) => ['joint', 'fault'].includes(parameters[parameter]!.kind));
        if (fixed) stays += value;
        else grows += value;
      }
      return { stays, grows, inSeries: combine === 'series' ? 1 : 0 };
    });
    const found: number[] = [];
    for (let e = 0; e < elements.count; e++) {
      const kind = elements.kind[e]!;
      if (kind !== kindCode.span && kind !== kindCode.vegetation) continue;
      const run = elements.run[e]!;
      if (run >= 0 && ofChosen[run]! && elements.open[e] === openBy.nothing) found.push(e);
    }
    this.#element = Int32Array.from(found);
    const part = (e: number) => parts[elements.formula[e]!]!;
    this.#stays = Float64Array.from(found, (e) => part(e).stays);
    this.#grows = Float64Array.from(found, (e) => part(e).grows);
    this.#inSeries = Uint8Array.from(found, (e) => part(e).inSeries);
  }

  /** The conductances at a ratio of the length that the network was built for. */
  at(ratio: number): FenceChange {
    const siemens = this.#stays.map((stays, i) => {
      const value = stays + this.#grows[i]! * ratio;
      return this.#inSeries[i] === 1 ? 1 / value : value;
    });
    return { elements: this.#element, siemens };
  }
}
