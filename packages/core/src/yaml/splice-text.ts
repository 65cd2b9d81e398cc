import {
  type Alias,
  type Document,
  isAlias,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  visit,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { type Fields, InFront, isFields, removed, settled } from './edited-data.js';
import { Splices } from './splices.js';
import { TextPlaces } from './text-places.js';
import { isBlock, TextStyle } from './text-style.js';

type Path = readonly (string | number)[];

/**
 * A document's text with other data written into it: every part that stays the same keeps its very characters.
 *
 * `data` is what the text reads as, edited in place; `copies` names for a new entry of a map the present one that it is laid
 * out like. An alias goes on standing for its anchor where both still hold the same, and is written out where they do not.
 */
export function spliceText(text: string, data: unknown, copies: ReadonlyMap<unknown, string> = new Map()): string {
  return new Splicer(text, data, copies).result();
}

class Splicer {
  readonly #text: string;
  readonly #data: unknown;
  readonly #copies: ReadonlyMap<unknown, string>;
  readonly #document: Document.Parsed;
  readonly #style: TextStyle;
  readonly #places: TextPlaces;
  readonly #splices: Splices;
  readonly #anchors = new Map<Node, Path>();

  constructor(text: string, data: unknown, copies: ReadonlyMap<unknown, string>) {
    this.#text = text;
    this.#data = data;
    this.#copies = copies;
    this.#style = new TextStyle(text);
    this.#places = new TextPlaces(text);
    this.#splices = new Splices(text, this.#places, this.#style);
    this.#document = parseDocument(text, {
      prettyErrors: false,
      uniqueKeys: false,
      logLevel: 'error',
      stringKeys: true,
    });
  }

  result(): string {
    visit(this.#document, {
      Node: (_, node, ancestors) => {
        if ('anchor' in node && node.anchor !== undefined)
          this.#anchors.set(node as Node, pathOf(node as Node, ancestors));
      },
    });
    this.#patch(this.#document.contents!, this.#data);
    return this.#splices.applied();
  }

  #patch(node: Node, value: unknown): void {
    if (isAlias(node)) {
      if (!this.#follows(node, value)) this.#replace(node, value);
    } else if (isMap(node) && isFields(value)) this.#patchMap(node, value);
    else if (isSeq(node) && Array.isArray(value)) this.#patchSeq(node, value);
    else if (!isScalar(node) || node.value !== value) this.#replace(node, value);
  }

  /** Whether what an alias stands for reads, once written, as the alias has to. */
  #follows(alias: Alias, value: unknown): boolean {
    const source = alias.resolve(this.#document);
    const path = source === undefined ? undefined : this.#anchors.get(source);
    if (path === undefined) return false;
    let there = this.#data;
    for (const key of path) {
      if (typeof there !== 'object' || there === null || !Object.hasOwn(there, key)) return false;
      there = (there as Fields)[key];
    }
    return there !== removed && JSON.stringify(settled(there)) === JSON.stringify(settled(value));
  }

  #patchMap(node: YAMLMap, value: Fields): void {
    const pairs = node.items as Pair<Node, Node | null>[];
    const kept = pairs.filter((pair) => Object.hasOwn(value, nameOf(pair)));
    if (kept.length === 0) {
      if (pairs.length > 0 || Object.keys(value).length > 0) this.#replace(node, value);
      return;
    }
    for (const pair of kept) this.#patchPair(pair, value[nameOf(pair)], node.flow === true);
    if (Object.keys(value).length > kept.length) this.#addPairs(node, kept, value);
    if (kept.length === pairs.length) return;
    const stays = new Set(kept);
    const items = pairs.map((pair) => ({
      start: this.#places.outset(pair.key),
      end: this.#places.endOf(pair),
      goes: !stays.has(pair),
    }));
    if (node.flow === true) this.#splices.cutFlow(items);
    else this.#splices.cutLines(items);
  }

  /** Puts keys that the text has not yet each behind the one that comes before it. */
  #addPairs(node: YAMLMap, kept: readonly Pair<Node, Node | null>[], value: Fields): void {
    const byName = new Map(kept.map((pair) => [nameOf(pair), pair]));
    const start = this.#places.outset(kept[0]!.key);
    const column = this.#style.column(start);
    let after: number | null = null;
    for (const [key, item] of Object.entries(value)) {
      const known = byName.get(key);
      if (known !== undefined) after = this.#places.endOf(known);
      else if (node.flow === true)
        this.#splices.putFlow(node, this.#style.pair(key, settled(item), column), after, start);
      else {
        const text = this.#newPair(node, key, item, column);
        if (after === null) this.#splices.put(start, `${text}${this.#style.newLine}${' '.repeat(column)}`);
        else this.#splices.putLine(after, text, column);
      }
    }
  }

  #patchPair({ key, value: node }: Pair<Node, Node | null>, value: unknown, isFlow: boolean): void {
    const keyEnd = key.range![1];
    if (node === null) {
      if (value !== null) this.#splices.put(keyEnd, `: ${this.#style.inline(settled(value))}`);
      return;
    }
    const source = isAlias(node) ? node.resolve(this.#document) : undefined;
    if (isAlias(node) && isBlock(source) && !isFlow) {
      if (this.#follows(node, value)) return;
      // What it was called by its anchor for is laid out as it is there.
      const start = this.#places.start(key);
      const text = this.#style.pairLike(nameOf({ key }), settled(value), source, this.#style.column(start), null);
      this.#splices.replace(start, this.#places.end(node), text);
      return;
    }
    const same = isCollection(node) && (isMap(node) ? isFields(value) : Array.isArray(value));
    const between = this.#text.slice(keyEnd, this.#places.start(node));
    // What stood on lines of its own moves up behind its key.
    if (isBlock(node) && !same && /^\s*:\s*$/.test(between)) {
      const text = ` ${this.#style.inline(settled(value))}`;
      this.#splices.replace(keyEnd + between.indexOf(':') + 1, this.#places.end(node), text);
    } else this.#patch(node, value);
  }

  #patchSeq(node: YAMLSeq, value: readonly unknown[]): void {
    const nodes = node.items as Node[];
    const kept = nodes.filter((_, i) => value[i] !== removed);
    const added = value.slice(nodes.length);
    const isRewritten = value.length < nodes.length || nodes.length === 0 || (kept.length === 0 && node.flow === true);
    if (isRewritten || (kept.length === 0 && added.length === 0)) {
      if (nodes.length > 0 || value.length > 0) this.#replace(node, value);
      return;
    }
    nodes.forEach((item, i) => {
      if (value[i] !== removed) this.#patch(item, value[i]);
    });
    if (kept.length === nodes.length && added.length === 0) return;
    const first = this.#places.outset(kept[0] ?? nodes[0]!);
    const last = kept.at(-1);
    for (const item of added) {
      const after = last === undefined || item instanceof InFront ? null : this.#places.end(last);
      const text = this.#style.inline(settled(item instanceof InFront ? item.value : item), this.#style.column(first));
      if (node.flow === true) this.#splices.putFlow(node, text, after, first);
      else {
        const dash = this.#places.dashOf(this.#places.start(nodes[0]!));
        this.#splices.putLine(after ?? this.#places.lineStart(dash) - 1, `- ${text}`, this.#style.column(dash));
      }
    }
    const items = nodes.map((item, i) => ({
      start: this.#places.outset(item),
      end: this.#places.end(item),
      goes: value[i] === removed,
    }));
    if (node.flow === true) this.#splices.cutFlow(items);
    else
      this.#splices.cutLines(
        items.map((item) => (item.goes ? { ...item, start: this.#places.dashOf(item.start) } : item)),
      );
  }

  #newPair(node: YAMLMap, key: string, value: unknown, column: number): string {
    const model = this.#copies.get(value);
    if (model !== undefined)
      return this.#style.pairLike(key, settled(value), node.get(model, true) as Node, column, column);
    const now = settled(value);
    if (column > 0 || !Array.isArray(now) || !now.every(isFields)) return this.#style.pair(key, now, column);
    // A new part of the plan stands apart where the others do.
    const apart = /\n\s*\n\S/.test(this.#text) ? this.#style.newLine : '';
    return apart + this.#style.blockList(key, now, column);
  }

  #replace(node: Node, value: unknown): void {
    const at = this.#places.start(node);
    const end = this.#places.end(node);
    const space = at === end && /\S/.test(this.#text[at - 1] ?? ' ') ? ' ' : '';
    this.#splices.replace(at, end, space + this.#style.inline(settled(value), this.#places.lineIndent(at)));
  }
}

const nameOf = ({ key }: Pick<Pair<Node, unknown>, 'key'>): string => String(isScalar(key) ? key.value : key);

/** Keys and numbers from the top of a document down to a node. */
function pathOf(node: Node, ancestors: readonly unknown[]): Path {
  const path: (string | number)[] = [];
  [...ancestors, node].forEach((part, i, parts) => {
    const inner = parts[i + 1];
    if (isSeq(part) && inner !== undefined) path.push(part.items.indexOf(inner));
    else if (part !== null && typeof part === 'object' && 'key' in part) path.push(nameOf(part as Pair<Node, unknown>));
  });
  return path;
}
