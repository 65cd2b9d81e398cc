import {
  type Estimate,
  earthReturnOhmsPerMetre,
  type InsulatorState,
  postContactOhmsPerOhmM,
  type Wetness,
  wireOhmsPerMetre,
} from '@postvolt/tables';
import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import type { Growth } from './local.js';
import type { RecipeBook, Term } from './parameters.js';
import { one, per, RecipeMaker } from './recipe-maker.js';

/**
 * Turns rows of the tables into recipes for what the fence is built of, one method an element of the network. Formulas:
 * insulator film R = F/K (IEC 60507), post contact after H. B. Dwight 1936, earth return after Carson 1926 (first term).
 */
export class Materials extends RecipeMaker {
  readonly #earthReturn: number;

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, book: RecipeBook, returnsThroughEarth: boolean) {
    super(plan, condition, book);
    this.#earthReturn = returnsThroughEarth ? earthReturnOhmsPerMetre(plan.pulseHz) : 0;
  }

  #wire(id: string): number {
    const row = this.plan.rows.wires[id]!;
    const { temperatureC } = this.condition;
    const estimate = wireOhmsPerMetre(row, { frequencyHz: this.plan.pulseHz, temperatureC });
    return this.parameter(
      'wire',
      `wire|${id}|${temperatureC}`,
      `${id}, ohms a metre to the pulse`,
      estimate,
      `wires: ${id}`,
      `wire|${id}`,
    );
  }

  /**
   * A span of wire; where the current returns through the earth, the earth's part is shared by the run's parallel hot
   * strands, so each carries it once for every strand. `inSeries` are parameters in ohms: a switch, a bad splice.
   */
  span(wire: string, lengthM: number, parallelHot: number, inSeries: readonly number[]): number {
    return this.once(['span', wire, parallelHot, inSeries.join(), lengthM], () => {
      const terms: Term[] = [{ factor: lengthM, powers: [one(this.#wire(wire))] }];
      const earth = lengthM * parallelHot * this.#earthReturn;
      if (earth > 0) terms.push({ factor: earth, powers: [] });
      for (const parameter of inSeries) terms.push({ factor: 1, powers: [one(parameter)] });
      return this.series(terms);
    });
  }

  cable(wire: string, lengthM: number): number {
    // A cable of no length still joins; a tenth of a metre keeps its conductance finite.
    return this.once(['cable', wire, lengthM], () =>
      this.series([{ factor: Math.max(lengthM, 0.1), powers: [one(this.#wire(wire))] }]),
    );
  }

  joint(id: string): number {
    return this.once(['joint', id], () => this.series([{ factor: 1, powers: [one(this.jointParameter(id))] }]));
  }

  jointParameter(id: string): number {
    return this.parameter('joint', `joint|${id}`, `${id}, ohms`, this.plan.rows.joints[id]!.ohms, `joints: ${id}`);
  }

  /** All the insulators of one strand at one post: film, and a cracked body where it conducts, side by side. */
  insulator(id: string, state: InsulatorState, count: number, run: string): number {
    return this.once(['insulator', id, state, count, run], () => {
      const row = this.plan.rows.insulators[id]!;
      const from = `insulators: ${id}`;
      if (row.contactOhms !== null) {
        const contact = this.parameter(
          'insulator body',
          `contact|${id}`,
          `${id}, ohms of the contact`,
          row.contactOhms,
          from,
        );
        return this.parallel([{ factor: count, powers: [per(contact)] }]);
      }
      const wetness = this.condition.film;
      const film = this.parameter(
        'film',
        `film|${state}|${wetness}|${run}`,
        `film on ${state} insulators, ${wetness}`,
        this.plan.rows.films[state]!.siemens[wetness],
        `films: ${state}`,
        `film|${run}`,
      );
      const form = this.parameter('insulator body', `form|${id}`, `${id}, form factor`, row.formFactor, from);
      const powers = [one(film), per(form)];
      if (state !== 'new') {
        const weathered = this.parameter('film', `weathered|${id}`, `${id}, weathering`, row.weatheredFilmFactor, from);
        powers.push(one(weathered));
      }
      const terms: Term[] = [{ factor: count, powers }];
      if (state === 'cracked' && row.crackedBodyOhms !== null) {
        const body = this.parameter(
          'insulator body',
          `cracked|${id}`,
          `${id}, cracked body`,
          row.crackedBodyOhms,
          from,
        );
        terms.push({ factor: count, powers: [per(body)] });
      }
      return this.parallel(terms);
    });
  }

  /** Post body to remote earth: through the post, then its contact with the topsoil. */
  post(id: string, wetness: Wetness, soil: string): number {
    return this.once(['post', id, wetness, soil], () => {
      const row = this.plan.rows.posts[id]!;
      const through = this.parameter(
        'post',
        `post|${id}|${wetness}`,
        `${id}, ${wetness}, ohms through the post`,
        row.throughOhms[wetness],
        `posts: ${id}`,
        `post|${id}`,
      );
      const contact = this.parameter(
        'post',
        `contact|${id}`,
        `${id}, contact with the soil, ohms an ohm-metre`,
        postContactOhmsPerOhmM(row),
        `posts: ${id}`,
      );
      return this.series([
        { factor: 1, powers: [one(through)] },
        { factor: 1, powers: [one(contact), one(this.soil(soil, 'topsoil'))] },
      ]);
    });
  }

  /** Growth, or an entered leak, on a length of strand. */
  growth(growth: Growth, lengthM: number, scope: string): number {
    if (growth.kind === 'entered') {
      const key = `leak|${growth.leak.source}`;
      const leak = this.parameter('growth', key, 'entered leak a metre', growth.leak, growth.leak.source);
      return this.parallel([{ factor: lengthM, powers: [one(leak)] }]);
    }
    const { vegetation, wetness } = growth;
    return this.once(['growth', vegetation, wetness, scope, lengthM], () => {
      const { rows } = this.plan;
      const wet = this.parameter(
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
            this.parameter(
              'growth',
              `growth wetness|${wetness}`,
              `${wetness} growth against wet`,
              rows.growthWetness[wetness],
              'growthWetness',
            ),
          ),
        );
      }
      return this.parallel([{ factor: lengthM, powers }]);
    });
  }

  /** A fault's path, `share` of it: two halves of a fault on a span carry half the current each. */
  fault(parameter: number, share: number): number {
    return this.series([{ factor: 1 / share, powers: [one(parameter)] }]);
  }

  /** Volts that make a spark gap fire. */
  firingVolts(fault: { id: string; kind: string }, estimate: Estimate): number {
    return this.parameter('fault', `fires|${fault.id}`, `${fault.kind}, fires at`, estimate, estimate.source);
  }

  /** A fault's ohms, entered or from the faults table. */
  faultParameter(fault: { id: string; kind: string }, estimate: Estimate): number {
    return this.parameter('fault', `fault|${fault.id}`, fault.kind, estimate, estimate.source);
  }
}
