import type { Basis } from '@postvolt/tables';
import type { StrandStatus } from '../fence/status.js';
import type { Issue } from '../issue.js';

/** One strand at one post. Volts are peak volts of the pulse, amps peak amps. */
export interface StrandResult {
  readonly run: string;
  /** Number of the post in that run. */
  readonly post: number;
  readonly strand: string;
  readonly role: 'hot' | 'grounded';
  readonly status: StrandStatus;
  /** Node of the network, and its name in an exported circuit. */
  readonly node: string;
  readonly voltsToEarth: number;
  /** Volts to the nearest grounded strand of the same post; null where there is none. */
  readonly voltsToGrounded: number | null;
  /** Along the shortest metal path from the fence terminal; null where there is none. */
  readonly distanceM: number | null;
  /**
   * Across the body and hide of the plan's animal touching here, and through it: to earth, or to the grounded strand if
   * that gives more. What the soil under its feet takes is not counted: dry ground starves the animal.
   */
  readonly animalVolts: number;
  readonly animalAmps: number;
  /** Driving-point resistance to earth, energizer connected. */
  readonly sourceOhms: number;
  /** In the span to the next post, positive towards it; null at the run's last post. */
  readonly spanAmps: number | null;
  /** Leaving the strand here by its insulators, growth and faults, positive to earth. */
  readonly leakAmps: number;
}

/** One physical post. A junction's post is listed once, with `junction` set and the strands of every run that ends there. */
export interface PostResult {
  /** `run/number`, or the junction's id. */
  readonly id: string;
  readonly junction: string | null;
  readonly run: string | null;
  readonly post: number | null;
  /** From the run's start; null for a junction. */
  readonly positionM: number | null;
  readonly distanceM: number | null;
  /** Of the post's body, and amps into the soil there. */
  readonly bodyVolts: number;
  readonly bodyAmps: number;
  readonly strands: readonly StrandResult[];
}

/** A path by which current leaves the hot strands, named by its larger resistance. */
export interface LeakShare {
  /** `insulators`, `posts`, `vegetation`, `fault`, `entered leak`, `between strands`. */
  readonly kind: string;
  /** In words: `aged cheap plastic claw`, `steel T-post`, `moderate growth, wet`. */
  readonly cause: string;
  readonly amps: number;
  /** Of all current that leaves the hot strands; the shares add to 100. */
  readonly percent: number;
  /** Number of places it is made of. */
  readonly places: number;
}

/** Where the energizer's open-circuit volts go on the way to the weakest post; the parts add up to `openVolts`. */
export interface VoltsBudget {
  readonly openVolts: number;
  readonly insideEnergizer: number;
  readonly groundSystem: number;
  readonly leadOut: number;
  readonly wire: number;
  readonly leftAtWeakest: number;
}

/** The lowest hot strand of the fence. */
export interface WeakestPost {
  readonly postId: string;
  readonly run: string;
  readonly post: number;
  readonly strand: string;
  readonly voltsToEarth: number;
  readonly animalVolts: number;
  /** Compared with the target: one of the two above. */
  readonly compared: number;
}

/** Whether the target holds in one condition, where it is nearest to failing, and why. */
export interface Verdict {
  readonly holds: boolean;
  /** One sentence in the plan's units: holds or not, where, by how much, largest cause. */
  readonly sentence: string;
  readonly targetVolts: number;
  /** Weakest post less target; at or above zero holds. */
  readonly marginVolts: number;
  readonly weakest: WeakestPost;
  readonly largestCause: LeakShare | null;
}

/** Where the fence meets the energizer's output curve. */
export interface EnergizerResult {
  readonly openVolts: number;
  /** Fence terminal less ground terminal. */
  readonly terminalVolts: number;
  readonly amps: number;
  /** Fence terminal to remote earth. */
  readonly fenceVoltsToEarth: number;
  /** Of the ground terminal over remote earth, as a positive number. */
  readonly groundRiseVolts: number;
  readonly groundOhms: number;
  /** Of the fence with its ground, as the terminals see it. */
  readonly inputOhms: number;
  /** Slope of the output curve where it meets the fence. */
  readonly sourceOhms: number;
}

/**
 * How well the numbers satisfy the circuit laws, both relative: `kirchhoff` the largest sum of currents at a node over
 * the sizes of its terms, `powerBalance` the energizer's power less all heat. Near 1e-15 where all is well.
 */
export interface Residuals {
  readonly kirchhoff: number;
  readonly powerBalance: number;
}

/** A plan solved in one of its conditions. */
export interface ConditionResult {
  readonly id: string;
  readonly name: string;
  readonly verdict: Verdict;
  readonly energizer: EnergizerResult;
  readonly voltsBudget: VoltsBudget;
  /** Largest first. */
  readonly leaks: readonly LeakShare[];
  readonly posts: readonly PostResult[];
  /** Ids of posts with a hot strand that a fault has cut off, and of those behind an open switch. */
  readonly deadPosts: readonly string[];
  readonly switchedOffPosts: readonly string[];
  readonly warnings: readonly Issue[];
  readonly residuals: Residuals;
}

/** Things to buy and set, counted from the plan. */
export interface Counts {
  readonly posts: Readonly<Record<string, number>>;
  readonly lineInsulators: Readonly<Record<string, number>>;
  readonly endInsulators: Readonly<Record<string, number>>;
  readonly wireM: Readonly<Record<string, number>>;
  readonly hotStrandM: number;
  readonly groundedStrandM: number;
  readonly runM: number;
}

/** A plan solved in its conditions: what `solvePlan` returns and `postvolt solve --json` prints. */
export interface PlanResult {
  readonly format: 'postvolt result';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: 'imperial' | 'metric';
  readonly target: { readonly volts: number; readonly of: 'to earth' | 'across the animal'; readonly label: string };
  readonly holds: boolean;
  /** One sentence for all conditions. */
  readonly sentence: string;
  readonly conditions: readonly ConditionResult[];
  readonly counts: Counts;
  /** About the plan itself: doubtful inputs, cautions that it touches. */
  readonly warnings: readonly Issue[];
  readonly cautions: readonly { readonly id: string; readonly text: string; readonly source: string }[];
}

/** One resistance at a post, with where its value comes from. */
export interface ExplainedPart {
  /** `insulator of top`, `post body to soil`, `growth on the span before`, `span to the next post` ... */
  readonly what: string;
  readonly ohms: number;
  /** Over the ranges of what it is made of. */
  readonly lowOhms: number;
  readonly highOhms: number;
  readonly volts: number;
  readonly amps: number;
  /** Of all current that leaves the hot strands, for a leak; of the volts lost to this post, for a span or lead. */
  readonly percent: number;
  readonly inputs: readonly {
    readonly name: string;
    readonly low: number;
    readonly typical: number;
    readonly high: number;
    readonly unit: string;
    readonly basis: Basis;
    readonly source: string;
    readonly fromMemory: boolean;
    /** `wires: 12.5 ga high-tensile`, or the plan's path where it was entered. */
    readonly from: string;
  }[];
}

/** Why a post reads what it reads in one condition. */
export interface Explanation {
  readonly postId: string;
  readonly condition: string;
  /** Why the post reads what it reads, in one sentence. */
  readonly sentence: string;
  readonly post: PostResult;
  readonly parts: readonly ExplainedPart[];
  readonly voltsBudget: VoltsBudget;
}
