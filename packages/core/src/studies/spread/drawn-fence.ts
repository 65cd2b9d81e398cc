import { Circuit } from '../../engine/circuit.js';
import { SourceCurve } from '../../engine/source-curve.js';
import { curvePoints } from '../../network/curve.js';
import type { FenceNetwork } from '../../network/network.js';
import { RecipeProgram } from '../../network/recipe-program.js';
import type { SolvedFence } from '../../result/solved-fence.js';

/**
 * A fence whose input values are changed again and again: each distinct recipe is worked out once, its siemens are written
 * into the circuit, and `solve` is one numeric pass.
 */
export class DrawnFence {
  readonly fence: FenceNetwork;
  readonly circuit: Circuit;
  /** Siemens of every recipe, of the last values set. */
  readonly recipeSiemens: Float64Array;
  readonly #program: RecipeProgram;
  readonly #curve: readonly [amps: number, volts: number][];
  readonly #branchRecipe: Int32Array;
  readonly #leakNode: Int32Array;
  readonly #leakRecipe: Int32Array;

  constructor({ fence, circuit, map: { branchOf } }: SolvedFence) {
    const { elements, recipes, parameters, plan, condition } = fence;
    this.fence = fence;
    const { gaps } = circuit.network;
    // A fork would share the gaps' volts and ohms with the circuit that stays.
    const own = gaps && { ...gaps, volts: gaps.volts.slice(), ohms: gaps.ohms.slice() };
    this.circuit = new Circuit({ ...circuit.network, gaps: own }, circuit.source, circuit.analysis);
    this.recipeSiemens = new Float64Array(recipes.length);
    this.#program = new RecipeProgram(recipes, parameters.length);
    this.#curve = curvePoints(plan.energizer, condition);
    this.#branchRecipe = new Int32Array(circuit.network.branchSiemens.length);
    const leaks: number[] = [];
    for (let e = 0; e < elements.count; e++) {
      if (branchOf[e]! >= 0) this.#branchRecipe[branchOf[e]!] = elements.recipe[e]!;
      else leaks.push(e);
    }
    this.#leakNode = Int32Array.from(leaks, (e) => elements.nodeA[e]!);
    this.#leakRecipe = Int32Array.from(leaks, (e) => elements.recipe[e]!);
  }

  /** Sets a value per parameter, and the energizer's output as a multiple of its typical volts at every load. */
  set(values: ArrayLike<number>, sourceFactor: number): void {
    const siemens = this.recipeSiemens;
    this.#program.run(values, siemens);
    const { branchSiemens, leakSiemens } = this.circuit.network;
    const branchRecipe = this.#branchRecipe;
    for (let b = 0; b < branchRecipe.length; b++) branchSiemens[b] = siemens[branchRecipe[b]!]!;
    leakSiemens.fill(0);
    const leakNode = this.#leakNode;
    const leakRecipe = this.#leakRecipe;
    for (let l = 0; l < leakNode.length; l++) leakSiemens[leakNode[l]!]! += siemens[leakRecipe[l]!]!;
    const { gaps } = this.circuit.network;
    this.fence.sparkGaps.forEach((gap, i) => {
      gaps!.volts[i] = values[gap.volts]!;
      gaps!.ohms[i] = values[gap.ohms]!;
    });
    this.circuit.setSource(
      new SourceCurve(this.#curve.map(([amps, volts]) => [amps * sourceFactor, volts * sourceFactor] as const)),
    );
    this.circuit.valuesChanged();
  }
}
