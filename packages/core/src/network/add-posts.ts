import type { NetworkDraft } from './draft.js';
import { kindCode } from './elements.js';
import { postAtEnd } from './hanging.js';
import type { Attachment } from './local-conditions.js';

/** Every post's body to earth, and the insulators that hang its strands on the body. */
export function addPosts(draft: NetworkDraft): void {
  const { layout, plan, list } = draft;
  list.partIs('fence');
  const posts = new PostAdder(draft);
  layout.ends.forEach((ends, j) => {
    const [first] = ends;
    const row = plan.junctions[j]!.post;
    if (first === undefined) posts.addLone(j, row ?? plan.builds[0]!.post);
    else posts.addBody(first.run, postAtEnd(layout, first), row);
    for (const end of ends) posts.addInsulators(end.run, postAtEnd(layout, end));
  });
  layout.runs.forEach((run, r) => {
    for (let i = 1; i < run.spans; i++) {
      posts.addBody(r, i, null);
      posts.addInsulators(r, i);
    }
  });
}

/** Adds posts and insulators; what a post has in common with the one before is looked up once. */
class PostAdder {
  readonly #draft: NetworkDraft;
  #last = { row: '', wetness: '', soil: '', formula: -1, cause: -1 };
  readonly #hung = new Map<Attachment, { readonly formula: number; readonly cause: number; readonly number: number }>();

  constructor(draft: NetworkDraft) {
    this.#draft = draft;
  }

  addBody(r: number, i: number, ownRow: string | null): void {
    const { layout, local, soilAt } = this.#draft;
    const run = layout.runs[r]!;
    const atM = run.positionsM[i]!;
    const post = run.posts[i]!;
    this.#add(post, ownRow ?? local[r]!.post(atM), local[r]!.postWetness(atM), soilAt(r, i), r, i);
  }

  /** Where cables alone meet, nothing hangs on the post; it stands in the farm's soil. */
  addLone(junction: number, row: string): void {
    const { condition, plan } = this.#draft;
    this.#add(junction, row, condition.post, plan.soil, -1, -1);
  }

  #add(post: number, row: string, wetness: 'dry' | 'damp' | 'wet', soil: string, r: number, i: number): void {
    const { conductances, list, layout, postElement } = this.#draft;
    let body = this.#last;
    if (body.row !== row || body.wetness !== wetness || body.soil !== soil) {
      const formula = conductances.post(row, wetness, soil);
      body = { row, wetness, soil, formula, cause: list.cause('posts', `${row} posts, ${wetness}`) };
      this.#last = body;
    }
    postElement[post] = list.add(kindCode.post, layout.body[post]!, -1, body.formula, body.cause, r, i);
  }

  addInsulators(r: number, i: number): void {
    const { layout, local, places, list, hanging, faultElements } = this.#draft;
    const hangs = hanging(r, i);
    if (hangs === 'elsewhere') return;
    const run = layout.runs[r]!;
    for (let s = 0; s < run.strands.length; s++) {
      const usual = local[r]!.insulator(s, i, hangs === 'end');
      const spoilt = places.insulatorFault(r, i, s);
      const attachment = spoilt === null ? usual : { ...usual, state: spoilt.state };
      const { formula, cause, number } = this.#hangs(attachment, run.run.id);
      const e = list.add(kindCode.insulator, run.nodes[s]![i]!, layout.body[run.posts[i]!]!, formula, cause, r, i, s);
      list.setAttachment(e, number);
      if (spoilt !== null) faultElements[spoilt.fault]!.push(e);
    }
  }

  /** Attachments are kept as objects by run, strand and place, so that each is looked up once. */
  #hangs(attachment: Attachment, run: string) {
    let hung = this.#hung.get(attachment);
    if (hung === undefined) {
      const { plan, condition, conductances, list, attachmentNumber } = this.#draft;
      const { row, state, count } = attachment;
      const bare = plan.rows.insulators[row]!.contactOhms !== null;
      hung = {
        formula: conductances.insulator(row, state, count, run),
        cause: list.cause('insulators', bare ? row : `${state} ${row} insulators, ${condition.film}`),
        number: attachmentNumber(attachment),
      };
      this.#hung.set(attachment, hung);
    }
    return hung;
  }
}
