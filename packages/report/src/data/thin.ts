/**
 * Indices of the points that a line needs when it is drawn: of each stretch of neighbours that fall into one pixel
 * column, the first, the lowest, the highest and the last, so that no extreme is lost.
 *
 * `x` and `y` give a point's place; `columnWidth` is in the unit of `x`.
 * Source of the rule: U. Jugel and others, M4, VLDB 2014.
 */
export function thinLine(
  count: number,
  x: (index: number) => number,
  y: (index: number) => number,
  columnWidth: number,
): number[] {
  const kept: number[] = [];
  let start = 0;
  while (start < count) {
    const column = Math.floor(x(start) / columnWidth);
    let end = start + 1;
    let [low, high] = [start, start];
    for (; end < count && Math.floor(x(end) / columnWidth) === column; end++) {
      if (y(end) < y(low)) low = end;
      if (y(end) > y(high)) high = end;
    }
    const [first, second] = low < high ? [low, high] : [high, low];
    for (const index of [start, first, second, end - 1]) if (index !== kept.at(-1)) kept.push(index);
    start = end;
  }
  return kept;
}

/** Of indices that share a cell, the one with the lowest value; in the order of their first appearance. */
export function lowestPerCell(
  count: number,
  cell: (index: number) => number | string,
  value: (index: number) => number,
): number[] {
  const lowest = new Map<number | string, number>();
  for (let index = 0; index < count; index++) {
    const key = cell(index);
    const held = lowest.get(key);
    if (held === undefined || value(index) < value(held)) lowest.set(key, index);
  }
  return [...lowest.values()];
}
