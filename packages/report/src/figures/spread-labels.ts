/**
 * Moves labels on one axis apart: each stays as near to its wish as it can with `gap` between neighbours, within
 * `low` to `high` where there is room. Returns places in the order of the wishes.
 */
export function spreadLabels(wishes: readonly number[], gap: number, low: number, high: number): number[] {
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a]! - wishes[b]! || a - b);
  // Neighbours that would touch become one block round the mean of their wishes.
  const blocks: { sum: number; members: number[] }[] = [];
  const startOf = ({ sum, members }: { sum: number; members: number[] }) => {
    const size = (members.length - 1) * gap;
    return Math.max(low, Math.min(high - size, sum / members.length - size / 2));
  };
  for (const i of order) {
    blocks.push({ sum: wishes[i]!, members: [i] });
    for (;;) {
      const [before, last] = [blocks.at(-2), blocks.at(-1)!];
      if (before === undefined || startOf(before) + before.members.length * gap <= startOf(last)) break;
      blocks.splice(-2, 2, { sum: before.sum + last.sum, members: [...before.members, ...last.members] });
    }
  }
  const places = new Array<number>(wishes.length);
  for (const block of blocks) {
    const start = startOf(block);
    block.members.forEach((i, n) => {
      places[i] = start + n * gap;
    });
  }
  return places;
}
