import {
  type Estimate,
  earthReturnOhmsPerMetre,
  type InsulatorState,
  postContactOhmsPerOhmM,
  type RodLayout,
  rodArray,
  type SoilState,
  type Wetness,
  wireOhmsPerMetre,
} from '@postvolt/tables';
import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import { calibrated, type Shift, shiftsOf } from './calibrate.js';
import type { Growth } from './local.js';
import { openRecipe, type Parameter, type RecipeBook, type Term } from './parameters.js';

const one = (parameter: number) => ({ parameter, exponent: 1 });
const per = (parameter: number) => ({ parameter, exponent: -1 });

/**
 * Turns rows of the tables into recipes, one method an element of the network. Formulas: insulator film R = F/K
 * (IEC 60507), post contact and rods after H. B. Dwight 1936, earth return after Carson 1926 (first term).
 */
export class Materials {
  readonly #plan: ResolvedPlan;
  readonly #condition: ResolvedCondition;
  readonly #book: RecipeBook;
  readonly #earthReturn: number;
  readonly #shifts: ReadonlyMap<string, Shift>;
  /** Recipes already made, by their arguments: a post a call must stay cheap. */
  readonly #made = new Map<string, number>();

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, book: RecipeBook, returnsThroughEarth: boolean) {
    this.#plan = plan;
    this.#condition = condition;
    this.#book = book;
    this.#shifts = shiftsOf(plan.calibration);
    this.#earthReturn = returnsThroughEarth ? earthReturnOhmsPerMetre(plan.pulseHz) : 0;
  }

  #once(key: string, make: () => number): number {
    const known = this.#made.get(key);
    if (known !== undefined) return known;
    const recipe = make();
    this.#made.set(key, recipe);
    return recipe;
  }

  #parameter(
    kind: Parameter['kind'],
    key: string,
    name: string,
    estimate: Estimate,
    from: string,
    together = key,
  ): number {
    const shift = this.#shifts.get(together);
    const own = shift === undefined ? estimate : calibrated(estimate, shift);
    return this.#book.parameter({ kind, key, name, estimate: own, from, together });
  }

  #series(terms: Term[]): number {
    return this.#book.recipe({ combine: 'series', terms });
  }

  #parallel(terms: Term[]): number {
    return this.#book.recipe({ combine: 'parallel', terms });
  }

  get open(): number {
    return this.#book.recipe(openRecipe);
  }

  #wire(id: string): number {
    const row = this.#plan.rows.wires[id]!;
    const { temperatureC } = this.#condition;
    const estimate = wireOhmsPerMetre(row, { frequencyHz: this.#plan.pulseHz, temperatureC });
    return this.#parameter(
      'wire',
      `wire|${id}|${temperatureC}`,
      `${id}, ohms a metre to the pulse`,
      estimate,
      `wires: ${id}`,
      `wire|${id}`,
    );
  }

  /** Topsoil or deep resistivity of a soil in the condition's state, or in another. */
  soil(id: string, depth: 'topsoil' | 'deep', state: SoilState = this.#condition.soil): number {
    const at = this.#plan.rows.soils[id]!.states[state];
    const estimate = depth === 'deep' ? at.deepOhmM : at.topsoilOhmM;
    const name = depth === 'deep' ? `${state} ${id} at rod depth` : `${state} ${id}, topsoil`;
    return this.#parameter('soil', `soil|${id}|${state}|${depth}`, name, estimate, `soils: ${id}`, `soil|${id}`);
  }

  /**
   * A span of wire; where the current returns through the earth, the earth's part is shared by the run's parallel hot
   * strands, so each carries it once for every strand. `inSeries` are parameters in ohms: a switch, a bad splice.
   */
  span(wire: string, lengthM: number, parallelHot: number, inSeries: readonly number[]): number {
    return this.#once(`span|${wire}|${lengthM}|${parallelHot}|${inSeries.join()}`, () => {
      const terms: Term[] = [{ factor: lengthM, powers: [one(this.#wire(wire))] }];
      const earth = lengthM * parallelHot * this.#earthReturn;
      if (earth > 0) terms.push({ factor: earth, powers: [] });
      for (const parameter of inSeries) terms.push({ factor: 1, powers: [one(parameter)] });
      return this.#series(terms);
    });
  }

  cable(wire: string, lengthM: number): number {
    // A cable of no length still joins; a tenth of a metre keeps its conductance finite.
    return this.#once(`cable|${wire}|${lengthM}`, () =>
      this.#series([{ factor: Math.max(lengthM, 0.1), powers: [one(this.#wire(wire))] }]),
    );
  }

  joint(id: string): number {
    return this.#once(`joint|${id}`, () => this.#series([{ factor: 1, powers: [one(this.jointParameter(id))] }]));
  }

  jointParameter(id: string): number {
    return this.#parameter('joint', `joint|${id}`, `${id}, ohms`, this.#plan.rows.joints[id]!.ohms, `joints: ${id}`);
  }

  /** All the insulators of one strand at one post: film, and a cracked body where it conducts, side by side. */
  insulator(id: string, state: InsulatorState, count: number, run: string): number {
    return this.#once(`insulator|${id}|${state}|${count}|${run}`, () => {
      const row = this.#plan.rows.insulators[id]!;
      const from = `insulators: ${id}`;
      if (row.contactOhms !== null) {
        const contact = this.#parameter(
          'insulator body',
          `contact|${id}`,
          `${id}, ohms of the contact`,
          row.contactOhms,
          from,
        );
        return this.#parallel([{ factor: count, powers: [per(contact)] }]);
      }
      const wetness = this.#condition.film;
      const film = this.#parameter(
        'film',
        `film|${state}|${wetness}|${run}`,
        `film on ${state} insulators, ${wetness}`,
        this.#plan.rows.films[state]!.siemens[wetness],
        `films: ${state}`,
        `film|${run}`,
      );
      const form = this.#parameter('insulator body', `form|${id}`, `${id}, form factor`, row.formFactor, from);
      const powers = [one(film), per(form)];
      if (state !== 'new') {
        const weathered = this.#parameter(
          'film',
          `weathered|${id}`,
          `${id}, weathering`,
          row.weatheredFilmFactor,
          from,
        );
        powers.push(one(weathered));
      }
      const terms: Term[] = [{ factor: count, powers }];
      if (state === 'cracked' && row.crackedBodyOhms !== null) {
        const body = this.#parameter(
          'insulator body',
          `cracked|${id}`,
          `${id}, cracked body`,
          row.crackedBodyOhms,
          from,
        );
        terms.push({ factor: count, powers: [per(body)] });
      }
      return this.#parallel(terms);
    });
  }

  /** Post body to remote earth: through the post, then its contact with the topsoil. */
  post(id: string, wetness: Wetness, soil: string): number {
    return this.#once(`post|${id}|${wetness}|${soil}`, () => {
      const row = this.#plan.rows.posts[id]!;
      const through = this.#parameter(
        'post',
        `post|${id}|${wetness}`,
        `${id}, ${wetness}, ohms through the post`,
        row.throughOhms[wetness],
        `posts: ${id}`,
        `post|${id}`,
      );
      const contact = this.#parameter(
        'post',
        `contact|${id}`,
        `${id}, contact with the soil, ohms an ohm-metre`,
        postContactOhmsPerOhmM(row),
        `posts: ${id}`,
      );
      return this.#series([
        { factor: 1, powers: [one(through)] },
        { factor: 1, powers: [one(contact), one(this.soil(soil, 'topsoil'))] },
      ]);
    });
  }

  /** Growth, or an entered leak, on a length of strand. */
  growth(growth: Growth, lengthM: number, scope: string): number {
    if (growth.kind === 'entered') {
      const key = `leak|${growth.leak.source}`;
      const leak = this.#parameter('growth', key, 'entered leak a metre', growth.leak, growth.leak.source);
      return this.#parallel([{ factor: lengthM, powers: [one(leak)] }]);
    }
    const { vegetation, wetness } = growth;
    return this.#once(`growth|${vegetation}|${wetness}|${lengthM}|${scope}`, () => {
      const { rows } = this.#plan;
      const wet = this.#parameter(
        'growth',
        `growth|${vegetation}|${scope}`,
        `${vegetation} growth, wet, leak a metre`,
        rows.vegetation[vegetation]!.wetSiemensPerMetre,
        `vegetation: ${vegetation}`,
        `growth|${scope}`,
      );
      const powers = [one(wet)];
      if (wetness !== 'wet') {
        powers.push(
          one(
            this.#parameter(
              'growth',
              `growth wetness|${wetness}`,
              `${wetness} growth against wet`,
              rows.growthWetness[wetness],
              'growthWetness',
            ),
          ),
        );
      }
      return this.#parallel([{ factor: lengthM, powers }]);
    });
  }

  /** The energizer's ground rods, or the measured resistance, following the soil where its state was given. */
  groundSystem(): number {
    const { ground } = this.#plan.energizer;
    const { soil } = this.#plan;
    if (ground.kind === 'rods') return this.#rods(ground, soil);
    const ohms = this.#parameter('ground system', 'ground', 'measured ground system', ground.ohms, ground.ohms.source);
    const powers = [one(ohms)];
    if (ground.measuredIn !== null && ground.measuredIn !== this.#condition.soil) {
      powers.push(one(this.soil(soil, 'deep')), per(this.soil(soil, 'deep', ground.measuredIn)));
    }
    return this.#series([{ factor: 1, powers }]);
  }

  /** One rod of a grounded strand. */
  strandRod(lengthM: number, diameterM: number, soil: string): number {
    return this.#rods({ count: 1, lengthM, diameterM, spacingM: lengthM, layout: 'line' }, soil);
  }

  #rods({ count, lengthM, diameterM, spacingM, layout }: RodLayout, soil: string): number {
    return this.#once(`rods|${count}|${lengthM}|${diameterM}|${spacingM}|${layout}|${soil}`, () => {
      const { ohmsPerOhmM } = rodArray({ count, lengthM, diameterM, spacingM, layout });
      return this.#series([{ factor: ohmsPerOhmM, powers: [one(this.soil(soil, 'deep'))] }]);
    });
  }

  /** The plan's animal standing on the soil there, in contact with a strand. */
  animalToEarth(soil: string): number {
    return this.#once(`animal|${soil}`, () => {
      const row = this.#plan.rows.animals[this.#plan.animal]!;
      const cover = this.#plan.rows.groundCovers[this.#condition.groundCover]!;
      const feet = this.#animalPart('feet', row.feetOhmsPerOhmM);
      const under = this.#parameter(
        'animal',
        `cover|${cover.id}`,
        `${cover.id} under the feet`,
        cover.hoofOhms,
        `groundCovers: ${cover.id}`,
      );
      return this.#series([
        ...this.#hide(),
        { factor: 1, powers: [one(feet), one(this.soil(soil, 'topsoil'))] },
        { factor: 1, powers: [one(under)] },
      ]);
    });
  }

  /** The plan's animal between a hot and a grounded strand. */
  animalBetweenStrands(): number {
    return this.#once('animal between', () => this.#series(this.#hide()));
  }

  #hide(): Term[] {
    const row = this.#plan.rows.animals[this.#plan.animal]!;
    return [
      { factor: 1, powers: [one(this.#animalPart('body', row.bodyOhms))] },
      { factor: 1, powers: [one(this.#animalPart('hide', row.hideOhms))] },
    ];
  }

  #animalPart(part: string, estimate: Estimate): number {
    const { animal } = this.#plan;
    return this.#parameter('animal', `animal|${animal}|${part}`, `${animal}, ${part}`, estimate, `animals: ${animal}`);
  }

  /** A fault's path, `share` of it: two halves of a fault on a span carry half the current each. */
  fault(parameter: number, share: number): number {
    return this.#series([{ factor: 1 / share, powers: [one(parameter)] }]);
  }

  /** Volts that make a spark gap fire. */
  firingVolts(fault: { id: string; kind: string }, estimate: Estimate): number {
    return this.#parameter('fault', `fires|${fault.id}`, `${fault.kind}, fires at`, estimate, estimate.source);
  }

  /** A fault's ohms, entered or from the faults table. */
  faultParameter(fault: { id: string; kind: string }, estimate: Estimate): number {
    return this.#parameter('fault', `fault|${fault.id}`, fault.kind, estimate, estimate.source);
  }
}
