import type { Layout } from '../network/layout.js';

/** What every node of a layout is, in words, with the post's id as results name it. */
export function nodeWords(layout: Layout): string[] {
  const { junctions } = layout.plan;
  const words = new Array<string>(layout.nodeCount).fill('');
  const tied = new Map<number, string[]>();
  junctions.forEach(({ id }, j) => {
    words[layout.body[j]!] = `post ${id}, body`;
    for (const [bus, role] of [
      [layout.hotBus[j]!, 'hot'],
      [layout.groundedBus[j]!, 'grounded'],
    ] as const) {
      if (bus < 0) continue;
      words[bus] = `post ${id}, ${role} strands tied there`;
      tied.set(bus, []);
    }
  });
  for (const { run, spans, strands, nodes, posts, from, to } of layout.runs) {
    for (let i = 1; i < spans; i++) words[layout.body[posts[i]!]!] = `post ${run.id}/${i}, body`;
    strands.forEach(({ id, role }, s) => {
      nodes[s]!.forEach((node, i) => {
        const bus = tied.get(node);
        const junction = i === 0 ? junctions[from]! : i === spans ? junctions[to]! : null;
        if (bus) bus.push(`${id} of ${run.id}`);
        else if (junction) words[node] = `post ${junction.id}, strand ${id} of ${run.id} (${role})`;
        else words[node] = `post ${run.id}/${i}, strand ${id} (${role})`;
      });
    });
  }
  for (const [bus, strands] of tied) if (strands.length > 0) words[bus] += `: ${strands.join(', ')}`;
  for (const [node, terminal] of [
    [layout.fenceTerminal, 'fence terminal'],
    [layout.groundTerminal, 'ground terminal'],
  ] as const) {
    words[node] = `energizer's ${terminal}${words[node] === '' ? '' : `; ${words[node]}`}`;
  }
  return words;
}
