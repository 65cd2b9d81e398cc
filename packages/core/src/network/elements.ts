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
  readonly cause: Cause;
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
  readonly #columns: number[][] = Array.from({ length: 10 }, () => []);
  readonly #openRecipe: number;

  constructor(book: RecipeBook) {
    this.#openRecipe = book.recipe(openRecipe);
  }

  /** Number of elements so far, which is the next one's number. */
  get count(): number {
    return this.#columns[0]!.length;
  }

  cause(cause: Cause): number {
    const key = `${cause.kind}|${cause.text}`;
    const known = this.#causeOf.get(key);
    if (known !== undefined) return known;
    this.causes.push(cause);
    this.#causeOf.set(key, this.causes.length - 1);
    return this.causes.length - 1;
  }

  add(element: NewElement): void {
    const open = element.open ?? openBy.nothing;
    const row = [
      kindCode[element.kind],
      element.a,
      element.b ?? -1,
      open === openBy.nothing ? element.recipe : this.#openRecipe,
      this.cause(element.cause),
      element.run ?? -1,
      element.post ?? -1,
      element.strand ?? -1,
      element.lengthM ?? 0,
      open,
    ];
    for (let c = 0; c < row.length; c++) this.#columns[c]!.push(row[c]!);
  }

  finish(): Elements {
    const [kind, nodeA, nodeB, recipe, cause, run, post, strand, lengthM, open] = this.#columns as [
      number[],
      number[],
      number[],
      number[],
      number[],
      number[],
      number[],
      number[],
      number[],
      number[],
    ];
    return {
      count: kind.length,
      kind: Uint8Array.from(kind),
      nodeA: Int32Array.from(nodeA),
      nodeB: Int32Array.from(nodeB),
      recipe: Int32Array.from(recipe),
      cause: Int32Array.from(cause),
      run: Int32Array.from(run),
      post: Int32Array.from(post),
      strand: Int32Array.from(strand),
      lengthM: Float64Array.from(lengthM),
      open: Uint8Array.from(open),
    };
  }
}
