import { Memo } from './memo.js';
import { openRecipe, type RecipeBook } from './parameters.js';

/** What an element of the network is, electrically. */
export const elementKinds = [
  'span',
  'insulator',
  'post',
  'vegetation',
  'joint',
  'cable',
  'ground system',
  'strand rod',
  'fault leak',
  'fault contact',
  'spark gap',
] as const;
/** What an element of the network stands for. */
export type ElementKind = (typeof elementKinds)[number];

/** Number of an element kind, as the kind column holds it. */
export const kindCode = Object.fromEntries(elementKinds.map((kind, i) => [kind, i])) as Record<ElementKind, number>;

/** Why metal does not conduct: it does, an open switch, or a fault. */
export const openBy = { nothing: 0, switch: 1, fault: 2 } as const;

/** A path by which current may leave the wire, in words, for the leak budget. */
export interface Cause {
  readonly kind:
    | 'insulators'
    | 'posts'
    | 'vegetation'
    | 'entered leak'
    | 'fault'
    | 'between strands'
    | 'wire'
    | 'ground';
  readonly text: string;
}

/**
 * The elements of a network, a row each, as columns of equal length.
 * `nodeB` is −1 for remote earth. `run`, `post`, `strand` are plan numbers (post within its run), −1 where they do not apply.
 * `lengthM` is metal length, for metal elements; `open` says why a metal element does not conduct (see `openBy`).
 */
export interface Elements {
  readonly count: number;
  readonly kind: Uint8Array;
  readonly nodeA: Int32Array;
  readonly nodeB: Int32Array;
  readonly recipe: Int32Array;
  readonly cause: Int32Array;
  readonly run: Int32Array;
  readonly post: Int32Array;
  readonly strand: Int32Array;
  readonly lengthM: Float64Array;
  readonly open: Uint8Array;
}

/** True for wire, joints and cables. */
export const isMetal = (kind: number): boolean =>
  kind === kindCode.span || kind === kindCode.joint || kind === kindCode.cable;

export interface NewElement {
  readonly kind: ElementKind;
  readonly a: number;
  /** −1, remote earth, where it is left out. */
  readonly b?: number;
  readonly recipe: number;
  /** Number that the list gave it. */
  readonly cause: number;
  readonly run?: number;
  readonly post?: number;
  readonly strand?: number;
  readonly lengthM?: number;
  readonly open?: number;
}

/** Gathers elements while a network is built. */
export class ElementList {
  readonly causes: Cause[] = [];
  readonly #causeOf = new Map<string, number>();
  readonly #causeOfParts = new Memo<number>();
  readonly #kind: number[] = [];
  readonly #nodeA: number[] = [];
  readonly #nodeB: number[] = [];
  readonly #recipe: number[] = [];
  readonly #cause: number[] = [];
  readonly #run: number[] = [];
  readonly #post: number[] = [];
  readonly #strand: number[] = [];
  readonly #lengthM: number[] = [];
  readonly #open: number[] = [];
  readonly #openRecipe: number;

  constructor(book: RecipeBook) {
    this.#openRecipe = book.recipe(openRecipe);
  }

  /** Number of elements so far, which is the next one's number. */
  get count(): number {
    return this.#kind.length;
  }

  /** Number of a cause, new or known. */
  cause(kind: Cause['kind'], text: string): number {
    const key = `${kind}|${text}`;
    const known = this.#causeOf.get(key);
    if (known !== undefined) return known;
    this.causes.push({ kind, text });
    this.#causeOf.set(key, this.causes.length - 1);
    return this.causes.length - 1;
  }

  /** The same where there is one a post: the text, which follows from the parts, is written once. */
  causeOf(kind: Cause['kind'], parts: readonly string[], text: () => string): number {
    return this.#causeOfParts.once([kind, ...parts], () => this.cause(kind, text()));
  }

  add(element: NewElement): void {
    const open = element.open ?? openBy.nothing;
    this.#kind.push(kindCode[element.kind]);
    this.#nodeA.push(element.a);
    this.#nodeB.push(element.b ?? -1);
    this.#recipe.push(open === openBy.nothing ? element.recipe : this.#openRecipe);
    this.#cause.push(element.cause);
    this.#run.push(element.run ?? -1);
    this.#post.push(element.post ?? -1);
    this.#strand.push(element.strand ?? -1);
    this.#lengthM.push(element.lengthM ?? 0);
    this.#open.push(open);
  }

  finish(): Elements {
    return {
      count: this.#kind.length,
      kind: Uint8Array.from(this.#kind),
      nodeA: Int32Array.from(this.#nodeA),
      nodeB: Int32Array.from(this.#nodeB),
      recipe: Int32Array.from(this.#recipe),
      cause: Int32Array.from(this.#cause),
      run: Int32Array.from(this.#run),
      post: Int32Array.from(this.#post),
      strand: Int32Array.from(this.#strand),
      lengthM: Float64Array.from(this.#lengthM),
      open: Uint8Array.from(this.#open),
    };
  }
}
