import { kindCode } from '../../network/elements.js';
import type { FenceNetwork } from '../../network/network.js';
import { typicalValues } from '../../network/parameters.js';

/** The elements whose conductance follows the length: spans in their wire, growth in its metres. */
export class GrowingElements {
  readonly #element: Int32Array;
  /** Ohms of a span, siemens of growth: the part that stays, and the part that grows, at ratio 1. */
  readonly #stays: Float64Array;
  readonly #grows: Float64Array;
  readonly #inSeries: Uint8Array;

  /** `ofChosen` says by run whether it is one of those that change their length. */
  constructor(fence: FenceNetwork, ofChosen: readonly boolean[]) {
    const { elements, recipes, parameters } = fence;
    const values = typicalValues(parameters);
    const parts = recipes.map(({ combine, terms }) => {
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
      if (run >= 0 && ofChosen[run]! && recipes[elements.recipe[e]!]!.terms.length > 0) found.push(e);
    }
    this.#element = Int32Array.from(found);
    const part = (e: number) => parts[elements.recipe[e]!]!;
    this.#stays = Float64Array.from(found, (e) => part(e).stays);
    this.#grows = Float64Array.from(found, (e) => part(e).grows);
    this.#inSeries = Uint8Array.from(found, (e) => part(e).inSeries);
  }

  /** Writes the conductances at a ratio of the length that the network was built for. */
  setSiemens(siemens: Float64Array, ratio: number): void {
    const element = this.#element;
    for (let i = 0; i < element.length; i++) {
      const value = this.#stays[i]! + this.#grows[i]! * ratio;
      siemens[element[i]!] = this.#inSeries[i] === 1 ? 1 / value : value;
    }
  }
}
