import {
  cellsOf,
  climateRowSchema,
  climates,
  findClimate,
  findRow,
  findWeather,
  monthsOf,
  rowKey,
  standardTables,
  weatherRowSchema,
  weathers,
} from '@postvolt/tables';
import { describe, expect, test } from 'vitest';

describe('climates and weathers', () => {
  test('have the shape of their schema, one name each, and say where they come from', () => {
    for (const row of climates) expect(climateRowSchema.safeParse(row).error?.issues ?? [], row.id).toEqual([]);
    for (const row of weathers) expect(weatherRowSchema.safeParse(row).error?.issues ?? [], row.id).toEqual([]);
    for (const rows of [climates, weathers]) {
      const names = rows.flatMap(({ id, aliases }) => [id, ...aliases].map(rowKey));
      expect(new Set(names).size).toBe(names.length);
      for (const { basis, source, about } of rows) {
        expect(['estimate', 'common practice']).toContain(basis);
        expect(source).toMatch(basis === 'estimate' ? /estimate/ : /common practice, no source/);
        expect(about).toMatch(/^[A-Z].*\.$/);
      }
    }
    for (const [, cell] of cellsOf(climates)) expect(cell.low < cell.typical && cell.typical < cell.high).toBe(true);
  });

  test('cannot be changed by whoever imports them', () => {
    expect(() => {
      (climates[0]!.months[0] as { growth: string }).growth = 'heavy';
    }).toThrow(TypeError);
    expect(Object.isFrozen(weathers)).toBe(true);
  });

  test('name only rows that the tables have', () => {
    for (const { groundCover } of weathers) expect(findRow(standardTables, 'groundCovers', groundCover)).toBeDefined();
    for (const { months } of climates) {
      for (const { growth, weathers: brought } of months) {
        expect(findRow(standardTables, 'vegetation', growth)?.id).toBe(growth);
        for (const name of brought) expect(findWeather(name)?.id).toBe(name);
      }
    }
  });

  test('rain moves film, wood, growth and soil together: no weather has one of them wet and another dry', () => {
    for (const { film, post, growth, soil, id } of weathers) {
      expect([post, growth], id).toEqual([film, film]);
      if (film === 'wet') expect(soil, id).toBe('wet');
      if (soil === 'wet') expect(film, id).toBe('wet');
      if (soil === 'frozen') expect(film, id).toBe('dry');
    }
  });

  test('are found by id or alias, whatever the case', () => {
    expect(findClimate('Mediterranean')?.id).toBe('dry summer');
    expect(findClimate('nowhere')).toBeUndefined();
    expect(findWeather(' Slush ')?.id).toBe('thaw');
  });

  test('are half a year later south of the equator', () => {
    const row = findClimate('temperate')!;
    const [north, south] = [monthsOf(row, false), monthsOf(row, true)];
    expect(north[0]!.weathers).toContain('frost');
    expect(south[6]).toEqual(north[0]);
    expect(south[0]).toEqual(north[6]);
    expect(monthsOf({ ...row, months: south }, true)).toEqual(north);
  });
});

describe('temperatures keep the bounds of the climate class (Köppen, as defined by Peel, Finlayson and McMahon 2007)', () => {
  test.each(climates.map((row) => [row.id, row] as const))('%s', (_, { koppen, months }) => {
    const means = months.map(({ temperatureC }) => temperatureC.typical);
    const [coldest, warmest] = [Math.min(...means), Math.max(...means)];
    const [group, , heat] = koppen;
    if (group === 'B') {
      // Semi-arid and cold: a mean of less than 18 °C over the year.
      expect(koppen).toBe('BSk');
      expect(means.reduce((sum, t) => sum + t, 0) / 12).toBeLessThan(18);
      return;
    }
    expect(warmest).toBeGreaterThanOrEqual(10);
    if (group === 'C') expect(coldest > 0 && coldest < 18).toBe(true);
    if (group === 'D') expect(coldest).toBeLessThanOrEqual(0);
    expect(['a', 'b']).toContain(heat);
    if (heat === 'a') expect(warmest).toBeGreaterThanOrEqual(22);
    else {
      expect(warmest).toBeLessThan(22);
      expect(means.filter((t) => t >= 10).length).toBeGreaterThanOrEqual(4);
    }
  });

  test('where the class has a dry summer no summer month brings rain', () => {
    const { months, koppen } = findClimate('dry summer')!;
    expect(koppen[1]).toBe('s');
    for (const { weathers: brought } of months.slice(5, 8)) expect(brought).not.toContain('rain');
  });
});
