import { Matrix, solve } from 'ml-matrix';

/** A vertical rod from the surface down. */
export interface Rod {
  readonly xM: number;
  readonly yM: number;
  readonly lengthM: number;
  readonly radiusM: number;
}

/**
 * Distances between points of one ring, for means over it: 2a·sin(φ/2) at angles that crowd where the potential is
 * singular, each with its weight. The weights add to 1.
 */
const chords = Array.from({ length: 40 }, (_, i) => {
  const u = (i + 0.5) / 40;
  return { chord: 2 * Math.sin((Math.PI * u * u) / 2), weight: (2 * u) / 40 };
});

/** Mean potential, at depth z, of a line or ring-shaped leak from `top` to `bottom` that carries one ampere in 1 Ω·m. */
function potential(distances: typeof chords, z: number, top: number, bottom: number): number {
  let sum = 0;
  for (const { chord, weight } of distances)
    sum += weight * (Math.asinh((z - top) / chord) - Math.asinh((z - bottom) / chord));
  return sum / (4 * Math.PI * (bottom - top));
}

/** Bonded rods at one potential, in soil of 1 Ω·m. */
export interface CutRods {
  /** To remote earth. */
  readonly ohms: number;
  /** Potential of the surface at a place beside the rods, for one ampere into all of them, ohms. */
  readonly surfaceOhms: (xM: number, yM: number) => number;
}

/**
 * Solves rods that are truly at one potential.
 *
 * Each rod's surface is cut into rings that leak evenly and grow finer towards both ends, where the current crowds; the
 * potential in the middle of every ring is that of all rings and of their mirror images above ground, and all are made
 * equal. Another rod's rings count as lines on its axis. The lower end is open, which matters less than a ring does.
 */
export function cutRods(rods: readonly Rod[], pieces: number): CutRods {
  const rings = rods.flatMap((rod) =>
    Array.from({ length: pieces }, (_, i) => {
      const cut = (n: number) => (rod.lengthM * (1 - Math.cos((Math.PI * n) / pieces))) / 2;
      return { rod, top: cut(i), bottom: cut(i + 1) };
    }),
  );
  const ohms = new Matrix(
    rings.map((seen) =>
      rings.map(({ rod, top, bottom }) => {
        const apart = Math.hypot(seen.rod.xM - rod.xM, seen.rod.yM - rod.yM);
        const distances =
          apart > 0
            ? [{ chord: apart, weight: 1 }]
            : chords.map(({ chord, weight }) => ({ chord: rod.radiusM * chord, weight }));
        const z = (seen.top + seen.bottom) / 2;
        return potential(distances, z, top, bottom) + potential(distances, z, -bottom, -top);
      }),
    ),
  );
  const amps = solve(ohms, Matrix.ones(rings.length, 1)).to1DArray();
  const total = amps.reduce((sum, share) => sum + share, 0);
  return {
    ohms: 1 / total,
    surfaceOhms: (xM, yM) =>
      rings.reduce((sum, { rod, top, bottom }, n) => {
        const distances = [{ chord: Math.hypot(xM - rod.xM, yM - rod.yM), weight: 1 }];
        return sum + (2 * amps[n]! * potential(distances, 0, top, bottom)) / total;
      }, 0),
  };
}
