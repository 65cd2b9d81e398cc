import { estimate, feet, inches, years } from '../cell.js';
import type { RodRow } from '../schema.js';

const size = (metres: number) => estimate(metres, null, 'm', 'nominal size as sold', { basis: 'common practice' });

const rod = (id: string, aliases: string[], about: string, lengthM: number, diameterM: number): RodRow => ({
  id,
  aliases,
  about,
  lengthM: size(lengthM),
  diameterM: size(diameterM),
  serviceYears: years(20, 10, 40),
});

/** Fractions as they are written on the label. */
const fractions = { 0.5: '1/2', 0.625: '5/8', 0.75: '3/4' } as const;

/** A bare length names the 5/8 in rod. */
function inchRod(lengthFt: number, diameterIn: keyof typeof fractions): RodRow {
  const full = `${lengthFt} ft ${diameterIn} in rod`;
  const spoken = `${lengthFt} ft x ${fractions[diameterIn]} in`;
  const bare = diameterIn === 0.625;
  return rod(
    bare ? `${lengthFt} ft rod` : full,
    [
      ...(bare ? [full, `${lengthFt} ft`] : []),
      spoken,
      `${spoken} rod`,
      `${lengthFt} ft ${fractions[diameterIn]} in rod`,
    ],
    `Galvanized rod, ${lengthFt} ft of ${fractions[diameterIn]} in.`,
    feet(lengthFt),
    inches(diameterIn),
  );
}

/** Ground rods. */
export const rods: RodRow[] = [
  rod(
    '3 ft rod',
    ['3 ft', 'portable rod', 't-handle rod'],
    'Portable rod with a handle, 3 ft of 1/2 in.',
    feet(3),
    inches(0.5),
  ),
  ...[5, 6, 8].map((lengthFt) => inchRod(lengthFt, 0.5)),
  ...[5, 6, 8, 10].map((lengthFt) => inchRod(lengthFt, 0.625)),
  ...[6, 8, 10].map((lengthFt) => inchRod(lengthFt, 0.75)),
  rod('1 m rod', ['1 m'], 'Galvanized rod, 1 m of 16 mm.', 1, 0.016),
  rod('2 m rod', ['2 m'], 'Galvanized rod, 2 m of 16 mm.', 2, 0.016),
];
