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

/** Why an element does not conduct: it does; an open switch; a fault; an animal stands there and goes by another way. */
export const openBy = { nothing: 0, switch: 1, fault: 2, otherWay: 3 } as const;

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

/** Things of the plan that an element may belong to. */
export const partKinds = [
  'fence',
  'ground',
  'lead-out',
  'ground lead',
  'jumper',
  'gate',
  'link',
  'strand rods',
  'fault',
] as const;
/** Thing of the plan that an element belongs to; `fence` for the posts, wires, insulators and growth of the runs. */
export type PartKind = (typeof partKinds)[number];
const partCode = Object.fromEntries(partKinds.map((kind, i) => [kind, i])) as Record<PartKind, number>;

/**
 * The elements of a network, a row each, as columns of equal length.
 *
 * `nodeB` is −1 for remote earth. `formula` is that of the element as it conducts; `open` says why metal does not (see
 * `openBy`). `run`, `post`, `strand` are plan numbers (post within its run; for a span the post before it), −1 where they
 * do not apply. `part` is the thing of the plan (see `partKinds`) and `partNumber` its place in the plan's list of them,
 * −1 for the fence itself and for what there is one of. `attachment` numbers an insulator's row, state and count in the
 * network's `attachments`, −1 elsewhere. `lengthM` is metal length, 0 for what is no metal.
 */
export interface Elements {
  readonly count: number;
  readonly kind: Uint8Array;
  readonly nodeA: Int32Array;
  readonly nodeB: Int32Array;
  readonly formula: Int32Array;
  readonly cause: Int32Array;
  readonly run: Int32Array;
  readonly post: Int32Array;
  readonly strand: Int32Array;
  readonly part: Uint8Array;
  readonly partNumber: Int32Array;
  readonly attachment: Int32Array;
  readonly lengthM: Float64Array;
  readonly open: Uint8Array;
}

/** Thing of the plan that an element belongs to. */
export const partOf = ({ part }: Elements, e: number): PartKind => partKinds[part[e]!]!;

/** Elements of one thing of the plan. */
export function elementsOfPart({ count, part, partNumber }: Elements, kind: PartKind, number: number): number[] {
  const found: number[] = [];
  for (let e = 0; e < count; e++) if (part[e] === partCode[kind] && partNumber[e] === number) found.push(e);
  return found;
}

/** True for wire, joints and cables. */
export const isMetal = (kind: number): boolean =>
  kind === kindCode.span || kind === kindCode.joint || kind === kindCode.cable;

/** Gathers elements while a network is built; the columns double when they are full. */
export class ElementList {
  readonly causes: Cause[] = [];
  readonly #causeOf = new Map<string, number>();
  #count = 0;
  #columns: Columns;
  #part: number = partCode.fence;
  #partNumber = -1;

  /** `expected` elements fit in without the columns being made longer. */
  constructor(expected: number) {
    this.#columns = columnsOf(Math.max(expected, 64));
  }

  /** Number of elements so far, which is the next one's number. */
  get count(): number {
    return this.#count;
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

  /** Says what the elements added from now on belong to. */
  partIs(kind: PartKind, number = -1): void {
    this.#part = partCode[kind];
    this.#partNumber = number;
  }

  /** Adds an element from node `a` to node `b` (−1: remote earth), at a place of a run where it has one; returns its number. */
  add(kind: number, a: number, b: number, formula: number, cause: number, run = -1, post = -1, strand = -1): number {
    const e = this.#count++;
    if (e === this.#columns.kind.length) this.#columns = columnsOf(2 * e, this.#columns);
    const columns = this.#columns;
    columns.kind[e] = kind;
    columns.nodeA[e] = a;
    columns.nodeB[e] = b;
    columns.formula[e] = formula;
    columns.cause[e] = cause;
    columns.run[e] = run;
    columns.post[e] = post;
    columns.strand[e] = strand;
    columns.part[e] = this.#part;
    columns.partNumber[e] = this.#partNumber;
    columns.attachment[e] = -1;
    return e;
  }

  setMetal(e: number, lengthM: number, open: number = openBy.nothing): void {
    this.#columns.lengthM[e] = lengthM;
    this.#columns.open[e] = open;
  }

  setAttachment(e: number, attachment: number): void {
    this.#columns.attachment[e] = attachment;
  }

  finish(): Elements {
    const { kind, nodeA, nodeB, formula, cause, run, post, strand, part, partNumber, attachment, lengthM, open } =
      this.#columns;
    const count = this.#count;
    return {
      count,
      kind: kind.subarray(0, count),
      nodeA: nodeA.subarray(0, count),
      nodeB: nodeB.subarray(0, count),
      formula: formula.subarray(0, count),
      cause: cause.subarray(0, count),
      run: run.subarray(0, count),
      post: post.subarray(0, count),
      strand: strand.subarray(0, count),
      part: part.subarray(0, count),
      partNumber: partNumber.subarray(0, count),
      attachment: attachment.subarray(0, count),
      lengthM: lengthM.subarray(0, count),
      open: open.subarray(0, count),
    };
  }
}

type Columns = Omit<Elements, 'count'>;

/** Columns of a length, filled from others as far as they go. */
function columnsOf(length: number, from?: Columns): Columns {
  const copy = <T extends Uint8Array | Int32Array | Float64Array>(made: T, old: T | undefined): T => {
    if (old !== undefined) made.set(old);
    return made;
  };
  return {
    kind: copy(new Uint8Array(length), from?.kind),
    nodeA: copy(new Int32Array(length), from?.nodeA),
    nodeB: copy(new Int32Array(length), from?.nodeB),
    formula: copy(new Int32Array(length), from?.formula),
    cause: copy(new Int32Array(length), from?.cause),
    run: copy(new Int32Array(length), from?.run),
    post: copy(new Int32Array(length), from?.post),
    strand: copy(new Int32Array(length), from?.strand),
    part: copy(new Uint8Array(length), from?.part),
    partNumber: copy(new Int32Array(length), from?.partNumber),
    attachment: copy(new Int32Array(length), from?.attachment),
    lengthM: copy(new Float64Array(length), from?.lengthM),
    open: copy(new Uint8Array(length), from?.open),
  };
}
