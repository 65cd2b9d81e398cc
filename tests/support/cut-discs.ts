import { Matrix, solve } from 'ml-matrix';

/**
 * Ohms to remote earth, for soil of 1 Ω·m, of four equal discs on its surface at the corners of a rectangle, bonded.
 * Each disc is cut into squares that leak evenly, `across` of them over its diameter; the potential in the middle of every
 * square is that of all, and all are made equal. A square's own potential at its middle is 4·ln(1 + √2) of its side.
 */
export function discsOhms(
  { hoofRadiusM, trackM, lengthM }: { hoofRadiusM: number; trackM: number; lengthM: number },
  across: number,
): number {
  const disc: { x: number; y: number }[] = [];
  for (let i = 0; i < across; i++) {
    for (let j = 0; j < across; j++) {
      const [x, y] = [(2 * i + 1) / across - 1, (2 * j + 1) / across - 1];
      if (Math.hypot(x, y) <= 1) disc.push({ x, y });
    }
  }
  // Squares of the disc's own area, so that a ragged edge neither adds nor takes.
  const side = hoofRadiusM * Math.sqrt(Math.PI / disc.length);
  const step = (2 * hoofRadiusM) / across;
  const places = [0, trackM].flatMap((left) =>
    [0, lengthM].flatMap((along) =>
      disc.map(({ x, y }) => ({ x: left + (x * across * step) / 2, y: along + (y * across * step) / 2 })),
    ),
  );
  const own = (4 * Math.log(1 + Math.SQRT2)) / side;
  const ohms = new Matrix(
    places.map((p, i) => places.map((q, j) => (i === j ? own : 1 / Math.hypot(p.x - q.x, p.y - q.y)) / (2 * Math.PI))),
  );
  return 1 / solve(ohms, Matrix.ones(places.length, 1)).sum();
}
