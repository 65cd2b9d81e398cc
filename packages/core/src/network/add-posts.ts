import type { ElementList } from './elements.js';
import type { RunEnd } from './layout.js';
import type { Site } from './site.js';

/** Every post's body to earth, and the insulators that hang its strands on the body. */
export function addPosts(site: Site): void {
  addJunctionPosts(site);
  site.layout.runs.forEach((run, r) => {
    for (let i = 1; i < run.spans; i++) {
      addBody(site, r, i, null);
      run.strands.forEach((_, s) => {
        addInsulator(site, r, i, s, site.faults.hasGate(r, i));
      });
    }
  });
}

function addJunctionPosts(site: Site): void {
  const { layout, plan } = site;
  layout.ends.forEach((ends, j) => {
    const first = ends[0];
    if (first === undefined) {
      addLonePost(site, j);
      return;
    }
    addBody(site, first.run, postAt(site, first), plan.junctions[j]!.post);
    ends.forEach((end, n) => {
      // The first two runs at a through post are one fence: its strands hang there once, on line insulators.
      const passes = plan.junctions[j]!.through && n < 2;
      if (passes && n === 1) return;
      const run = layout.runs[end.run]!;
      run.strands.forEach((_, s) => {
        addInsulator(site, end.run, postAt(site, end), s, !passes);
      });
    });
  });
}

/** Where cables alone meet, nothing hangs on the post: it stands at earth. */
function addLonePost({ layout, plan, condition, materials, list }: Site, j: number): void {
  const row = plan.junctions[j]!.post ?? plan.builds[0]!.post;
  list.add({
    kind: 'post',
    a: layout.body[j]!,
    recipe: materials.post(row, condition.post, plan.soil),
    cause: postsCause(list, row, condition.post),
  });
}

const postsCause = (list: ElementList, row: string, wetness: string): number =>
  list.causeOf('posts', [row, wetness], () => `${row} posts, ${wetness}`);

const postAt = (site: Site, end: RunEnd): number => (end.end === 'from' ? 0 : site.layout.runs[end.run]!.spans);

function addBody(site: Site, r: number, i: number, ownRow: string | null): void {
  const { layout, views, materials, list } = site;
  const run = layout.runs[r]!;
  const atM = run.positionsM[i]!;
  const row = ownRow ?? views[r]!.post(atM);
  const wetness = views[r]!.postWetness(atM);
  list.add({
    kind: 'post',
    a: layout.body[run.posts[i]!]!,
    recipe: materials.post(row, wetness, views[r]!.soil(atM)),
    cause: postsCause(list, row, wetness),
    run: r,
    post: i,
  });
}

function addInsulator(site: Site, r: number, i: number, s: number, atEnd: boolean): void {
  const { layout, views, materials, list, faults, plan, condition } = site;
  const run = layout.runs[r]!;
  const { row, state: usual, count } = views[r]!.insulator(s, i, atEnd);
  const state = faults.insulatorState(r, i, s) ?? usual;
  const bare = plan.rows.insulators[row]!.contactOhms !== null;
  list.add({
    kind: 'insulator',
    a: run.nodes[s]![i]!,
    b: layout.body[run.posts[i]!]!,
    recipe: materials.insulator(row, state, count, run.run.id),
    cause: list.causeOf('insulators', [row, state], () =>
      bare ? row : `${state} ${row} insulators, ${condition.film}`,
    ),
    run: r,
    post: i,
    strand: s,
  });
}
