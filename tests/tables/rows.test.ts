import { checkTables, standardTables, tableSetSchema } from '@postvolt/tables';
import { describe, expect, it } from 'vitest';

describe('the standard tables', () => {
  it('have the shape of the schema', () => {
    expect(tableSetSchema.safeParse(standardTables).error?.issues ?? []).toEqual([]);
  });

  it('keep the units, signs and unique names that an extended set must keep', () => {
    expect(checkTables(standardTables)).toEqual([]);
  });
});
