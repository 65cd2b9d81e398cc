import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import { addGround, addJoints, addStrandRods } from './add-connections.js';
import { addFaults } from './add-faults.js';
import { addPosts } from './add-posts.js';
import { addSpans } from './add-spans.js';
import { animalBetweenStrands, animalToEarth } from './animal-recipes.js';
import { type Cause, ElementList, type Elements, kindCode } from './elements.js';
import { FaultBook } from './fault-book.js';
import { type Layout, layOut } from './layout.js';
import { LocalView } from './local.js';
import { Materials } from './materials.js';
import { type Parameter, type Recipe, RecipeBook, recipeSiemens, type SparkGap, typicalValues } from './parameters.js';
import type { Site } from './site.js';

/** The network of a plan in one condition: elements, what their conductances are made of, and the animal that may touch. */
export interface FenceNetwork {
  readonly plan: ResolvedPlan;
  readonly condition: ResolvedCondition;
  readonly layout: Layout;
  readonly elements: Elements;
  readonly causes: readonly Cause[];
  readonly recipes: readonly Recipe[];
  readonly parameters: readonly Parameter[];
  readonly sparkGaps: readonly SparkGap[];
  /** By run, by post of the run: recipe of the animal from a strand there to earth. */
  readonly animalToEarth: readonly Int32Array[];
  /** Recipe of the animal between a hot and a grounded strand. */
  readonly animalBetweenStrands: number;
  /** By post (global number): its element to earth. */
  readonly postElement: Int32Array;
}

/** True where a grounded strand carries the current back by metal, so that the earth is not the way home. */
const returnsByWire = (plan: ResolvedPlan): boolean =>
  plan.builds.some((b) => b.strands.some((s) => s.role === 'grounded') && plan.runs.some((r) => r.build === b.id));

/** Builds the network of a plan in one condition; `layout` may be shared between conditions. */
export function buildNetwork(
  plan: ResolvedPlan,
  condition: ResolvedCondition,
  layout: Layout = layOut(plan),
): FenceNetwork {
  const book = new RecipeBook();
  const list = new ElementList(book);
  const site: Site = {
    plan,
    condition,
    layout,
    list,
    materials: new Materials(plan, condition, book, !returnsByWire(plan)),
    views: layout.runs.map((run) => new LocalView(plan, condition, run)),
    faults: new FaultBook(plan, condition, layout),
    sparkGaps: [],
  };
  addGround(site);
  addSpans(site);
  addPosts(site);
  addJoints(site);
  addStrandRods(site);
  addFaults(site);
  const toEarth = layout.runs.map((run, r) =>
    Int32Array.from(run.positionsM, (atM) => animalToEarth(site.materials, site.views[r]!.soil(atM))),
  );
  const betweenStrands = animalBetweenStrands(site.materials);
  const elements = list.finish();
  const postElement = new Int32Array(layout.postCount).fill(-1);
  const postOfBody = new Map(Array.from(layout.body, (node, post) => [node, post]));
  for (let e = 0; e < elements.count; e++) {
    if (elements.kind[e] === kindCode.post) postElement[postOfBody.get(elements.nodeA[e]!)!] = e;
  }
  return {
    plan,
    condition,
    layout,
    elements,
    causes: list.causes,
    recipes: book.recipes,
    parameters: book.parameters,
    sparkGaps: site.sparkGaps,
    animalToEarth: toEarth,
    animalBetweenStrands: betweenStrands,
    postElement,
  };
}

/** Siemens of every recipe, for a value per parameter (typical where left out). */
export function recipeValues(
  network: FenceNetwork,
  values: ArrayLike<number> = typicalValues(network.parameters),
): Float64Array {
  return Float64Array.from(network.recipes, (recipe) => recipeSiemens(recipe, values));
}
