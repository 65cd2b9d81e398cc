import {
  bases,
  cellsOf,
  checkTables,
  type EnergizerRow,
  findRow,
  insulatorStates,
  isUncertain,
  postContactOhmsPerOhmM,
  rowKey,
  standardTables,
  type TableName,
  tableSetSchema,
  wetnesses,
  wireOhmsPerMetre,
} from '@postvolt/tables';
import { describe, expect, it } from 'vitest';

const tables = standardTables;
const names = Object.keys(tables).filter((name): name is TableName => name !== 'growthWetness');
const typicals = <Row>(rows: readonly Row[], of: (row: Row) => number) => rows.map(of);
const rising = (values: readonly number[]) => values.every((value, i) => i === 0 || value >= values[i - 1]!);

describe('the standard tables', () => {
  it('have the shape of the schema', () => {
    expect(tableSetSchema.safeParse(tables).error?.issues ?? []).toEqual([]);
  });

  it('keep the units, signs and unique names that an extended set must keep', () => {
    expect(checkTables(tables)).toEqual([]);
  });

  it('cannot be changed by whoever imports them', () => {
    expect(() => {
      (tables.wires[0] as { id: string }).id = 'other';
    }).toThrow(TypeError);
    expect(() => tables.soils.pop()).toThrow(TypeError);
  });

  it('are none of them empty, and every row says what it is', () => {
    for (const name of names) {
      expect(tables[name].length).toBeGreaterThan(0);
      for (const row of tables[name]) expect(row.about, row.id).toMatch(/^[A-Z0-9].*\.$/);
    }
  });

  it('have ids in plain lower case: words, digits, points, hyphens and spaces', () => {
    for (const name of names) for (const row of tables[name]) expect(row.id).toMatch(/^[a-z0-9]+([ .-][a-z0-9]+)*$/);
  });

  it('say for every cell where it comes from, and mark what no standard or handbook prints', () => {
    for (const [path, cell] of cellsOf(tables)) {
      const where = path.join('.');
      expect(bases, where).toContain(cell.basis);
      expect(cell.source.length, where).toBeGreaterThan(8);
      if (cell.basis === 'common practice') expect(cell.source, where).toMatch(/no source|as sold/);
      if (['standard', 'handbook', 'extension'].includes(cell.basis)) expect(cell.fromMemory, where).toBe(true);
      if (cell.basis === 'standard') expect(cell.source, where).toMatch(/IEC|IEEE|ASTM|EN |Gauge|rating/);
    }
  });

  it('carry a range wherever the basis is an estimate, but for zeros and the reference of a ratio', () => {
    for (const [path, cell] of cellsOf(tables)) {
      if (cell.basis === 'estimate' && cell.typical !== 0 && !/reference|bare metal/.test(cell.source)) {
        expect(isUncertain(cell), path.join('.')).toBe(true);
      }
    }
  });

  it('name for every kind a plan needs', () => {
    const wanted: readonly (readonly [TableName, readonly string[]])[] = [
      [
        'wires',
        [
          '12.5 ga',
          '12½ ga',
          '12-1/2 gauge high-tensile',
          '14 ga high-tensile',
          '16 ga',
          '17 ga',
          '2.5 mm high-tensile',
          '2.0 mm',
          '1.6 mm',
          '12.5 ga aluminum',
          '12 AWG',
          'poly twine',
          'lead-out cable',
          'under-gate cable',
          '12.5 ga high-tensile class 1',
        ],
      ],
      [
        'insulators',
        [
          'claw',
          'nail-on claw',
          'cheap claw',
          'pin',
          'tube',
          'bullnose',
          'doughnut',
          'ceramic',
          'fiberglass post clip',
          'T-post clip',
          'cheap T-post clip',
          'staple',
        ],
      ],
      ['posts', ['wood', 'wood corner', 'T-post', 'fibreglass', 'plastic', 'composite', 'step-in']],
      ['soils', ['clay', 'loam', 'sand', 'gravel', 'rock', 'peat']],
      [
        'animals',
        [
          'cattle',
          'dairy cows',
          'calves',
          'bulls',
          'horses',
          'sheep',
          'woolly sheep',
          'goats',
          'pigs',
          'deer',
          'predators',
        ],
      ],
      ['energizers', ['0.5 J', '1 J', '3 J', '6 J', '12 J', '18 J', '25 J', '1 joule']],
      ['rods', ['5 ft rod', '6 ft rod', '8 ft', '10 ft rod', '8 ft x 3/4 in', '6 ft × 1/2 in rod']],
      ['joints', ['knot', 'crimped sleeve', 'clamp', 'poor', 'bad', 'switch closed', 'gate handle']],
      [
        'faults',
        [
          'wire on post',
          'cracked insulator',
          'fouled insulator',
          'branch on wire',
          'wire on ground',
          'bad splice',
          'broken wire',
          'animal',
        ],
      ],
      ['groundCovers', ['bare', 'grass', 'dry snow']],
    ];
    for (const [table, rows] of wanted)
      for (const name of rows) expect(findRow(tables, table, name), name).toBeDefined();
    for (let gauge = 8; gauge <= 17; gauge++)
      expect(findRow(tables, 'wires', `${gauge} ga`), `${gauge} ga`).toBeDefined();
  });

  it('say in a caution nothing but what Annex BB or the trade says, for every matter that calls for one', () => {
    for (const row of tables.cautions) {
      expect(row.source).toMatch(/IEC 60335-2-76|common practice, no source/);
      expect(row.text).toMatch(/\.$/);
    }
    expect(new Set(tables.cautions.map((row) => row.when)).size).toBe(8);
  });
});

describe('wires', () => {
  it('carry the pulse better the thicker they are, within one make of wire', () => {
    for (const make of [/^[\d.]+ ga high-tensile$/, /^[\d.]+ ga mild steel$/, /^[\d.]+ ga aluminium$/]) {
      const rows = tables.wires.filter((row) => make.test(row.id));
      expect(rows.length).toBeGreaterThan(2);
      expect(rising(rows.map((row) => wireOhmsPerMetre(row).typical)), String(make)).toBe(true);
    }
  });

  it('of class 3 carry it better than class 1, and aluminium better than steel of the same size', () => {
    const ohms = (id: string) => wireOhmsPerMetre(findRow(tables, 'wires', id)!).typical;
    expect(ohms('12.5 ga high-tensile class 3')).toBeLessThan(ohms('12.5 ga high-tensile class 1'));
    expect(ohms('12.5 ga aluminium-coated')).toBeLessThan(ohms('12.5 ga high-tensile'));
    expect(ohms('12.5 ga aluminium')).toBeLessThan(ohms('12.5 ga aluminium-coated') / 5);
  });

  it('of poly stay within 0.05 to 15 Ω/m', () => {
    for (const row of tables.wires.filter((wire) => wire.kind === 'poly')) {
      expect(row.ohmsPerMetre!.low).toBeGreaterThanOrEqual(0.05);
      expect(row.ohmsPerMetre!.high).toBeLessThanOrEqual(15);
    }
  });

  it('hold the load that 12.5 ga high-tensile is sold by (common practice: 1300 to 1600 lbf)', () => {
    const load = findRow(tables, 'wires', '12.5 ga high-tensile')!.breakingLoadN!;
    expect(load.typical / 4.448).toBeGreaterThan(1300);
    expect(load.typical / 4.448).toBeLessThan(1600);
  });

  it('have insulation rated in volts where, and only where, they are cable', () => {
    for (const row of tables.wires) expect(row.insulationVolts !== null, row.id).toBe(row.kind === 'cable');
  });
});

describe('insulators', () => {
  const row = (id: string) => findRow(tables, 'insulators', id)!;

  it.each([
    ['nail-on claw', 'cheap nail-on claw'],
    ['pin', 'cheap pin'],
    ['screw-in ring', 'cheap screw-in ring'],
    ['t-post clip', 'cheap t-post clip'],
  ])('%s is better than %s in path, weathering, cracks and years', (dense, cheap) => {
    const [good, poor] = [row(dense), row(cheap)];
    expect(good.formFactor.typical).toBeGreaterThan(poor.formFactor.typical);
    expect(good.weatheredFilmFactor.typical).toBeLessThan(poor.weatheredFilmFactor.typical);
    expect(good.crackedBodyOhms).toBeNull();
    expect(poor.crackedBodyOhms).not.toBeNull();
    expect(good.serviceYears.low).toBeGreaterThan(poor.serviceYears.typical);
  });

  it('of porcelain still insulate when cracked, of glazed ceramic not (common practice, no source)', () => {
    for (const insulator of tables.insulators) {
      if (insulator.material === 'porcelain') expect(insulator.crackedBodyOhms).toBeNull();
      if (insulator.material === 'glazed ceramic') expect(insulator.crackedBodyOhms!.typical).toBe(100e3);
    }
  });

  it('serve as long as the trade says: dense 20 years, tubes 5 to 10, porcelain outliving the fence (common practice, no source)', () => {
    expect(row('nail-on claw').serviceYears.typical).toBe(20);
    expect(row('wrap-around tube').serviceYears).toMatchObject({ low: 5, high: 10 });
    const wire = Math.max(...tables.wires.map((wire) => wire.serviceYears.typical));
    for (const insulator of tables.insulators.filter((i) => i.material === 'porcelain')) {
      expect(insulator.serviceYears.typical).toBeGreaterThan(wire);
    }
  });

  it('conduct as bare metal only where they are metal', () => {
    for (const insulator of tables.insulators) {
      expect(insulator.contactOhms !== null, insulator.id).toBe(insulator.material === 'metal');
    }
  });

  it('have a film for every state, that conducts no less damp than dry and no less wet than damp', () => {
    expect(tables.films.map((film) => film.id).sort()).toEqual([...insulatorStates].sort());
    for (const film of tables.films) {
      for (const at of ['low', 'typical', 'high'] as const) {
        // Rain washes salt: its low end may fall from damp to wet.
        if (film.id === 'salt' && at === 'low') continue;
        expect(rising(wetnesses.map((wetness) => film.siemens[wetness][at])), `${film.id} ${at}`).toBe(true);
      }
    }
  });

  it('leak more from new to aged to fouled, and most with salt in the damp', () => {
    const film = (id: string) => tables.films.find((row) => row.id === id)!.siemens;
    for (const wetness of wetnesses) {
      expect(film('aged')[wetness].typical).toBeGreaterThan(film('new')[wetness].typical);
      expect(film('fouled')[wetness].typical).toBeGreaterThan(film('aged')[wetness].typical);
      expect(film('salt')[wetness].typical).toBeGreaterThan(film('fouled')[wetness].typical);
      expect(film('cracked')[wetness].typical).toBeGreaterThanOrEqual(film('aged')[wetness].typical);
    }
  });

  it('go on posts of the table', () => {
    for (const insulator of tables.insulators) {
      for (const post of insulator.posts) expect(findRow(tables, 'posts', post)?.id).toBe(post);
    }
    for (const post of tables.posts) {
      const takers = tables.insulators.filter((i) => i.place !== 'end' && i.posts.includes(post.id));
      expect(takers.length, post.id).toBeGreaterThan(0);
    }
  });
});

describe('posts', () => {
  it('insulate less the wetter they are', () => {
    for (const post of tables.posts) {
      const ohms = wetnesses.map((wetness) => post.throughOhms[wetness].typical);
      expect(rising([...ohms].reverse()), post.id).toBe(true);
    }
  });

  it('of fibreglass, plastic and composite hold 10 MΩ in any weather; wood goes from there to some kΩ; steel is metal', () => {
    for (const post of tables.posts) {
      const { dry, wet } = post.throughOhms;
      if (post.kind === 'steel') expect(dry.high).toBeLessThan(postContactOhmsPerOhmM(post).typical * 100);
      else if (post.kind === 'wood') {
        expect(dry.low).toBeGreaterThanOrEqual(10e6);
        expect(wet.high).toBeLessThanOrEqual(60e3);
      } else expect(wet.low, post.id).toBeGreaterThanOrEqual(10e6);
    }
  });

  it('stand 20 to 100 ft apart in a line (common practice, no source)', () => {
    const wood = findRow(tables, 'posts', 'wood')!.usualSpacingM;
    expect(wood.low / 0.3048).toBeCloseTo(20, 9);
    expect(wood.high / 0.3048).toBeCloseTo(100, 9);
    expect(wood.typical / 0.3048).toBeGreaterThanOrEqual(30);
    expect(wood.typical / 0.3048).toBeLessThanOrEqual(50);
  });
});

describe('soils, covers and growth', () => {
  it('resist more from wet to moist to dry, and more frozen than moist', () => {
    for (const soil of tables.soils) {
      for (const layer of ['topsoilOhmM', 'deepOhmM'] as const) {
        const at = (state: 'wet' | 'moist' | 'dry' | 'frozen') => soil.states[state][layer].typical;
        expect(rising([at('wet'), at('moist'), at('dry')]), `${soil.id} ${layer}`).toBe(true);
        expect(at('frozen'), `${soil.id} ${layer}`).toBeGreaterThan(at('moist'));
      }
    }
  });

  it('dry out and freeze by the factors of the handbooks in the topsoil, and less at depth (from memory)', () => {
    // Dry season ×2 to ×10, frost ×5 to ×20; rock and gravel, dry already, less.
    for (const soil of tables.soils.filter((row) => !['rock', 'gravel'].includes(row.id))) {
      const { dry, moist, frozen } = soil.states;
      const top = (state: typeof dry) => state.topsoilOhmM.typical / moist.topsoilOhmM.typical;
      const deep = (state: typeof dry) => state.deepOhmM.typical / moist.deepOhmM.typical;
      expect(top(dry), soil.id).toBeGreaterThanOrEqual(2);
      expect(top(dry), soil.id).toBeLessThanOrEqual(10);
      expect(top(frozen), soil.id).toBeGreaterThanOrEqual(5);
      expect(top(frozen), soil.id).toBeLessThanOrEqual(20);
      expect(deep(dry), soil.id).toBeLessThanOrEqual(top(dry));
      expect(deep(frozen), soil.id).toBeLessThan(top(frozen));
    }
  });

  it.each([
    ['clay', 'wet', 10, 50],
    ['loam', 'moist', 30, 150],
    ['sand', 'moist', 100, 500],
    ['sand', 'dry', 1000, 5000],
    ['gravel', 'moist', 500, 5000],
    ['rock', 'moist', 1000, 10_000],
  ] as const)(
    '%s when %s keeps to the handbook range of %d to %d Ω·m (IEEE Std 142, IEEE Std 80; from memory)',
    (id, state, low, high) => {
      expect(findRow(tables, 'soils', id)!.states[state].topsoilOhmM).toMatchObject({ low, high });
    },
  );

  it('dry snow and a frozen crust put about 100 kΩ and more under hooves', () => {
    expect(findRow(tables, 'groundCovers', 'dry snow')!.hoofOhms.low).toBeGreaterThanOrEqual(100e3);
    expect(findRow(tables, 'groundCovers', 'frozen crust')!.hoofOhms.typical).toBeGreaterThanOrEqual(100e3);
  });

  it('grow from none to overgrown in leak and height; wet growth conducts 5 to 20 times better than dry', () => {
    expect(rising(typicals(tables.vegetation, (row) => row.wetSiemensPerMetre.typical))).toBe(true);
    expect(rising(typicals(tables.vegetation, (row) => row.usualHeightM.typical))).toBe(true);
    const { dry, damp, wet } = tables.growthWetness;
    expect([1 / dry.high, 1 / dry.low]).toEqual([5, 20]);
    expect(rising([dry.typical, damp.typical, wet.typical])).toBe(true);
    expect(wet).toMatchObject({ low: 1, typical: 1, high: 1 });
  });
});

describe('animals', () => {
  it('need 2 kV at the least, woolly and hard-to-hold ones 4 kV (extension services, from memory)', () => {
    for (const row of tables.animals) expect(row.targetVolts.low, row.id).toBeGreaterThanOrEqual(2000);
    for (const id of ['woolly sheep', 'long-haired cattle', 'bulls', 'predators', 'goats']) {
      expect(findRow(tables, 'animals', id)!.targetVolts.typical, id).toBeGreaterThanOrEqual(4000);
    }
    const cattle = findRow(tables, 'animals', 'cattle')!.targetVolts;
    expect(cattle.typical).toBeGreaterThanOrEqual(3000);
    expect(cattle.typical).toBeLessThanOrEqual(5000);
  });

  it('have the 500 Ω body of IEC 60335-2-76, wool of 1 to 5 kΩ, and hooves of 1.4 to 1.5 Ω per Ω·m under cattle', () => {
    for (const row of tables.animals) expect(row.bodyOhms.typical).toBe(500);
    expect(findRow(tables, 'animals', 'woolly sheep')!.hideOhms).toMatchObject({ low: 1000, high: 5000 });
    const cattle = findRow(tables, 'animals', 'cattle')!.feetOhmsPerOhmM;
    expect(cattle.typical).toBeGreaterThan(1.4);
    expect(cattle.typical).toBeLessThan(1.5);
  });
});

describe('energizers', () => {
  const volts = (row: EnergizerRow, ohms: number | null) => row.loads.find((load) => load.ohms === ohms)!.volts.typical;

  it('have three load volts each: open, 500 Ω and 100 Ω', () => {
    for (const row of tables.energizers) expect(row.loads.map((load) => load.ohms)).toEqual([null, 500, 100]);
  });

  it('rise from class to class at every load', () => {
    for (const ohms of [null, 500, 100])
      expect(rising(typicals(tables.energizers, (row) => volts(row, ohms)))).toBe(true);
    expect(rising(typicals(tables.energizers, (row) => row.joules))).toBe(true);
  });

  it('give the joules of their label in a pulse of 50 to 300 µs', () => {
    // A half-sine of width t into a load at peak V gives V²/R·t/2: label over the best load's V²/R is 25 to 150 µs.
    for (const row of tables.energizers) {
      const watts = Math.max(volts(row, 500) ** 2 / 500, volts(row, 100) ** 2 / 100);
      expect(row.joules / watts, row.id).toBeGreaterThan(25e-6);
      expect(row.joules / watts, row.id).toBeLessThan(150e-6);
    }
  });

  it('stay estimates of a class, with ranges', () => {
    for (const row of tables.energizers) {
      for (const load of row.loads) expect(load.volts).toMatchObject({ basis: 'estimate' });
    }
  });
});

describe('joints and faults', () => {
  it('are near 0.1 Ω when good and 10 Ω to 1 kΩ when bad', () => {
    const ohms = (id: string) => findRow(tables, 'joints', id)!.ohms;
    expect(ohms('clamp').typical).toBe(0.1);
    expect(ohms('bad')).toMatchObject({ low: 10, high: 1000 });
    expect(findRow(tables, 'faults', 'bad splice')!.ohms).toMatchObject({ low: 10, high: 1000 });
  });

  it('name an insulator state where, and only where, the path is an insulator', () => {
    for (const row of tables.faults) expect(row.insulatorState !== null, row.id).toBe(row.path === 'insulator');
  });

  it('leave the ohms open only to a state, an animal or a gap', () => {
    const open = tables.faults.filter((row) => row.ohms === null).map((row) => row.id);
    expect(open).toEqual(['cracked insulator', 'fouled insulator', 'broken wire', 'animal']);
  });
});

describe('rowKey', () => {
  it.each([
    [' 12½ Gauge ', '12.5 ga'],
    ['12-1/2 ga.', '12.5 ga'],
    ['12.5ga', '12.5 ga'],
    ['12.5 galvanized', '12.5 galvanized'],
    ['6 ft × 5/8 in', '6 ft x 5/8 in'],
    ['Fiberglass  post', 'fibreglass post'],
    ['Aluminum', 'aluminium'],
  ])('reads %j as %j', (name, key) => {
    expect(rowKey(name)).toBe(key);
  });
});
