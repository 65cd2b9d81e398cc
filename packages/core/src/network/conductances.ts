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
import { type FormulaList, openFormula, type Parameter, type Term } from './formulas.js';
import type { Growth } from './local-conditions.js';

/** A parameter to the first power, and one divided by. */
const one = (parameter: number) => ({ parameter, exponent: 1 });
const per = (parameter: number) => ({ parameter, exponent: -1 });

/**
 * Turns rows of the tables into conductance formulas, one method an element of the network. Sources: insulator film
 * R = F/K (IEC 60507), post contact and rods after H. B. Dwight 1936, earth return after Carson 1926 (first term), feet
 * after IEEE Std 80.
 *
 * Every method returns the number of a formula; asked for the same thing again it returns the same number at once.
 */
export class Conductances {
  readonly plan: ResolvedPlan;
  readonly condition: ResolvedCondition;
  /** Formula of an open path. */
  readonly open: number;
  readonly #list: FormulaList;
  readonly #shifts: ReadonlyMap<string, Shift>;
  readonly #made = new Map<string, number>();
  readonly #ofLength = new Map<string, Map<number, number>>();
  readonly #earthReturn: number;

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, list: FormulaList) {
    this.plan = plan;
    this.condition = condition;
    this.#list = list;
    this.#shifts = shiftsOf(plan.calibration);
    this.open = list.formula(openFormula);
    this.#earthReturn = earthReturnOhmsPerMetre(plan.pulseHz);
  }

  /**
   * A span of wire. Where its current returns through the earth, the earth's part is shared by the run's `earthShare`
   * parallel hot strands, so that each carries it once for every strand; 0 where it returns by a grounded strand.
   * `inSeries` are parameters in ohms: switches, bad splices.
   */
  span(wire: string, lengthM: number, earthShare: number, inSeries: readonly number[]): number {
    return this.#byLength(`span|${wire}|${earthShare}|${inSeries.join()}`, lengthM, () => {
      const terms: Term[] = [{ factor: lengthM, powers: [one(this.#wire(wire))] }];
      const earth = lengthM * earthShare * this.#earthReturn;
      if (earth > 0) terms.push({ factor: earth, powers: [] });
      for (const parameter of inSeries) terms.push({ factor: 1, powers: [one(parameter)] });
      return { combine: 'series', terms };
    });
  }

  /** A cable with what stands in series with it: joints at its ends, a switch, a bad splice. */
  cable(wire: string, lengthM: number, inSeries: readonly number[] = []): number {
    // A cable of no length still joins; a tenth of a metre keeps its conductance finite.
    return this.span(wire, Math.max(lengthM, 0.1), 0, inSeries);
  }

  joint(id: string): number {
    return this.#once(`joint|${id}`, () => series({ factor: 1, powers: [one(this.jointParameter(id))] }));
  }

  jointParameter(id: string): number {
    return this.#parameter('joint', `joint|${id}`, `${id}, ohms`, this.plan.rows.joints[id]!.ohms, `joints: ${id}`);
  }

  /** All the insulators of one strand at one post: film, and a cracked body where it conducts, side by side. */
  insulator(id: string, state: InsulatorState, count: number, run: string): number {
    return this.#once(`insulator|${id}|${state}|${count}|${run}`, () => {
      const row = this.plan.rows.insulators[id]!;
      const body = (key: string, name: string, estimate: Estimate) =>
        this.#parameter('insulator body', `${key}|${id}`, `${id}, ${name}`, estimate, `insulators: ${id}`);
      if (row.contactOhms !== null)
        return parallel({ factor: count, powers: [per(body('contact', 'ohms of the contact', row.contactOhms))] });
      const { film: wetness } = this.condition;
      const film = this.#parameter(
        'film',
        `film|${state}|${wetness}|${run}`,
        `film on ${state} insulators, ${wetness}`,
        this.plan.rows.films[state]!.siemens[wetness],
        `films: ${state}`,
        `film|${run}`,
      );
      const powers = [one(film), per(body('form', 'form factor', row.formFactor))];
      if (state !== 'new') {
        const factor = row.weatheredFilmFactor;
        powers.push(one(this.#parameter('film', `weathered|${id}`, `${id}, weathering`, factor, `insulators: ${id}`)));
      }
      const terms: Term[] = [{ factor: count, powers }];
      if (state === 'cracked' && row.crackedBodyOhms !== null)
        terms.push({ factor: count, powers: [per(body('cracked', 'cracked body', row.crackedBodyOhms))] });
      return parallel(...terms);
    });
  }

  /** Post body to remote earth: through the post, then its contact with the topsoil. */
  post(id: string, wetness: Wetness, soil: string): number {
    return this.#once(`post|${id}|${wetness}|${soil}`, () => {
      const row = this.plan.rows.posts[id]!;
      const [from, group] = [`posts: ${id}`, `post|${id}`];
      const name = `${id}, ${wetness}, ohms through the post`;
      const through = this.#parameter('post', `${group}|${wetness}`, name, row.throughOhms[wetness], from, group);
      const ofSoil = `${id}, contact with the soil, ohms an ohm-metre`;
      const contact = this.#parameter('post', `contact|${id}`, ofSoil, postContactOhmsPerOhmM(row), from);
      return series(
        { factor: 1, powers: [one(through)] },
        { factor: 1, powers: [one(contact), one(this.#soil(soil, 'topsoil'))] },
      );
    });
  }

  /** Growth, or an entered leak, on a length of strand. `scope` names growth that is uncertain as one. */
  growth(growth: Growth, lengthM: number, scope: string): number {
    if (growth.kind === 'entered') {
      const { source } = growth.leak;
      return this.#byLength(`leak|${source}`, lengthM, () => {
        const leak = this.#parameter('growth', `leak|${source}`, 'entered leak a metre', growth.leak, source);
        return parallel({ factor: lengthM, powers: [one(leak)] });
      });
    }
    const { vegetation, wetness } = growth;
    return this.#byLength(`growth|${vegetation}|${wetness}|${scope}`, lengthM, () => {
      const { rows } = this.plan;
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
        const [key, name] = [`growth wetness|${wetness}`, `${wetness} growth against wet`];
        powers.push(one(this.#parameter('growth', key, name, rows.growthWetness[wetness], 'growthWetness')));
      }
      return parallel({ factor: lengthM, powers });
    });
  }

  /** The energizer's ground rods, or the measured resistance, following the soil where its state was given. */
  groundSystem(): number {
    const { energizer, soil } = this.plan;
    const { ground } = energizer;
    if (ground.kind === 'rods') return this.#rods(ground, soil);
    const { ohms, measuredIn } = ground;
    const powers = [one(this.#parameter('ground system', 'ground', 'measured ground system', ohms, ohms.source))];
    if (measuredIn !== null && measuredIn !== this.condition.soil)
      powers.push(one(this.#soil(soil, 'deep')), per(this.#soil(soil, 'deep', measuredIn)));
    return this.#list.formula(series({ factor: 1, powers }));
  }

  /** One rod of a grounded strand. */
  strandRod(lengthM: number, diameterM: number, soil: string): number {
    return this.#rods({ count: 1, lengthM, diameterM, spacingM: lengthM, layout: 'line' }, soil);
  }

  #rods({ count, lengthM, diameterM, spacingM, layout }: RodLayout, soil: string): number {
    return this.#once(`rods|${count}|${lengthM}|${diameterM}|${spacingM}|${layout}|${soil}`, () => {
      const { ohmsPerOhmM } = rodArray({ count, lengthM, diameterM, spacingM, layout });
      return series({ factor: ohmsPerOhmM, powers: [one(this.#soil(soil, 'deep'))] });
    });
  }

  /** The plan's animal standing on a soil, in contact with a strand. */
  animalToEarth(soil: string): number {
    return this.#once(`animal|${soil}`, () => {
      const row = this.plan.rows.animals[this.plan.animal]!;
      const cover = this.plan.rows.groundCovers[this.condition.groundCover]!;
      const [key, from] = [`cover|${cover.id}`, `groundCovers: ${cover.id}`];
      const under = this.#parameter('animal', key, `${cover.id} under the feet`, cover.hoofOhms, from);
      const feet = this.#animal('feet', row.feetOhmsPerOhmM);
      return series(
        ...this.#bodyAndHide(),
        { factor: 1, powers: [one(feet), one(this.#soil(soil, 'topsoil'))] },
        { factor: 1, powers: [one(under)] },
      );
    });
  }

  /** The plan's animal between a hot and a grounded strand. */
  animalBetweenStrands(): number {
    return this.#once('animal between', () => series(...this.#bodyAndHide()));
  }

  /** A fault's path, `share` of it: two halves of a fault on a span carry half the current each. */
  fault(parameter: number, share: number): number {
    return this.#list.formula(series({ factor: 1 / share, powers: [one(parameter)] }));
  }

  /** Volts that make a spark gap fire. */
  firingVolts(fault: { id: string; kind: string }, estimate: Estimate): number {
    return this.#parameter('fault', `fires|${fault.id}`, `${fault.kind}, fires at`, estimate, estimate.source);
  }

  /** A fault's ohms, entered or from the faults table. */
  faultParameter(fault: { id: string; kind: string }, estimate: Estimate): number {
    return this.#parameter('fault', `fault|${fault.id}`, fault.kind, estimate, estimate.source);
  }

  #wire(id: string): number {
    const { temperatureC } = this.condition;
    const estimate = wireOhmsPerMetre(this.plan.rows.wires[id]!, { frequencyHz: this.plan.pulseHz, temperatureC });
    const name = `${id}, ohms a metre to the pulse`;
    return this.#parameter('wire', `wire|${id}|${temperatureC}`, name, estimate, `wires: ${id}`, `wire|${id}`);
  }

  /** Topsoil or deep resistivity of a soil in the condition's state, or in another. */
  #soil(id: string, depth: 'topsoil' | 'deep', state: SoilState = this.condition.soil): number {
    const at = this.plan.rows.soils[id]!.states[state];
    const estimate = depth === 'deep' ? at.deepOhmM : at.topsoilOhmM;
    const name = depth === 'deep' ? `${state} ${id} at rod depth` : `${state} ${id}, topsoil`;
    return this.#parameter('soil', `soil|${id}|${state}|${depth}`, name, estimate, `soils: ${id}`, `soil|${id}`);
  }

  #bodyAndHide(): Term[] {
    const { bodyOhms, hideOhms } = this.plan.rows.animals[this.plan.animal]!;
    return [
      { factor: 1, powers: [one(this.#animal('body', bodyOhms))] },
      { factor: 1, powers: [one(this.#animal('hide', hideOhms))] },
    ];
  }

  #animal(name: string, estimate: Estimate): number {
    const { animal } = this.plan;
    return this.#parameter('animal', `animal|${animal}|${name}`, `${animal}, ${name}`, estimate, `animals: ${animal}`);
  }

  #parameter(
    kind: Parameter['kind'],
    key: string,
    name: string,
    estimate: Estimate,
    tableRow: string,
    group = key,
  ): number {
    const shift = this.#shifts.get(group);
    const own = shift === undefined ? estimate : calibrated(estimate, shift);
    return this.#list.parameter({ kind, key, name, estimate: own, tableRow, group });
  }

  #once(key: string, make: () => Parameters<FormulaList['formula']>[0]): number {
    let made = this.#made.get(key);
    if (made === undefined) {
      made = this.#list.formula(make());
      this.#made.set(key, made);
    }
    return made;
  }

  /** As `once`, for what differs from post to post by its length alone. */
  #byLength(key: string, lengthM: number, make: () => Parameters<FormulaList['formula']>[0]): number {
    let lengths = this.#ofLength.get(key);
    if (lengths === undefined) {
      lengths = new Map();
      this.#ofLength.set(key, lengths);
    }
    let made = lengths.get(lengthM);
    if (made === undefined) {
      made = this.#list.formula(make());
      lengths.set(lengthM, made);
    }
    return made;
  }
}

const series = (...terms: Term[]) => ({ combine: 'series', terms }) as const;
const parallel = (...terms: Term[]) => ({ combine: 'parallel', terms }) as const;
