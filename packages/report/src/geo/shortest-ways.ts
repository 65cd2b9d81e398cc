/** A way between two numbered places. */
export interface Way {
  readonly a: number;
  readonly b: number;
  readonly length: number;
}

/** Shortest lengths between all pairs of places, row by row; places that nothing joins are as far apart as the longest way and half again. */
export function shortestWays(count: number, ways: readonly Way[]): Float64Array {
  const neighbours: { to: number; length: number }[][] = Array.from({ length: count }, () => []);
  for (const { a, b, length } of ways) {
    neighbours[a]!.push({ to: b, length });
    neighbours[b]!.push({ to: a, length });
  }
  const distances = new Float64Array(count * count).fill(Number.POSITIVE_INFINITY);
  let longest = 0;
  for (let start = 0; start < count; start++) {
    const row = distances.subarray(start * count, (start + 1) * count);
    row[start] = 0;
    // A queue that takes places up again when a shorter way turns up: the graphs are small and nearly trees.
    const queue = [start];
    for (let head = 0; head < queue.length; head++) {
      const at = queue[head]!;
      for (const { to, length } of neighbours[at]!) {
        if (row[at]! + length >= row[to]!) continue;
        row[to] = row[at]! + length;
        queue.push(to);
      }
    }
    for (const value of row) if (Number.isFinite(value)) longest = Math.max(longest, value);
  }
  return distances.map((value) => (Number.isFinite(value) ? value : 1.5 * longest));
}
