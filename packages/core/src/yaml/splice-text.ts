import {
  type Alias,
  type Document,
  isAlias,
  isCollection,
  isMap,
  isNode,
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
import { isBlock, TextStyle } from './text-style.js';

/** A part of the text that is replaced; of no length where something is put in. */
interface Splice {
  readonly at: number;
  readonly end: number;
  readonly text: string;
}

type Path = readonly (string | number)[];

/** An item of a list in brackets, or a pair of a map in brackets. */
interface Item {
  readonly start: number;
  readonly end: number;
  readonly goes: boolean;
}

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
  readonly #splices: Splice[] = [];
  readonly #anchors = new Map<Node, Path>();

  constructor(text: string, data: unknown, copies: ReadonlyMap<unknown, string>) {
    this.#text = text;
    this.#data = data;
    this.#copies = copies;
    this.#style = new TextStyle(text);
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
    const sorted = this.#splices
      .map((splice, i) => ({ ...splice, i }))
      .sort((a, b) => a.at - b.at || Number(a.end > a.at) - Number(b.end > b.at) || a.i - b.i);
    let [out, from] = ['', 0];
    for (const { at, end, text } of sorted) {
      if (at < from) throw new Error(`two edits of one place, at ${at}`);
      out += this.#text.slice(from, at) + text;
      from = end;
    }
    return out + this.#text.slice(from);
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
    for (const pair of kept) this.#patchPair(pair, value[nameOf(pair)]);
    const byName = new Map(kept.map((pair) => [nameOf(pair), pair]));
    const start = this.#start(kept[0]!.key);
    const column = this.#style.column(start);
    let after: Pair<Node, Node | null> | null = null;
    for (const [key, item] of Object.entries(value)) {
      const known = byName.get(key);
      if (known !== undefined) after = known;
      else if (node.flow === true) {
        this.#putFlow(
          node,
          this.#style.pair(key, settled(item), column),
          after === null ? null : this.#endOf(after),
          start,
        );
      } else {
        const text = this.#newPair(node, key, item, column);
        if (after === null) this.#put(start, `${text}${this.#style.newLine}${' '.repeat(column)}`);
        else this.#putLine(this.#endOf(after), text, column);
      }
    }
    const items = pairs.map((pair) => ({
      start: this.#start(pair.key),
      end: this.#endOf(pair),
      goes: !byName.has(nameOf(pair)),
    }));
    if (node.flow === true) this.#cutFlow(items);
    else this.#cutLines(items);
  }

  #patchPair(pair: Pair<Node, Node | null>, value: unknown): void {
    if (pair.value !== null) {
      const { value: node } = pair;
      const same = isCollection(node) && (isMap(node) ? isFields(value) : Array.isArray(value));
      // What stood on lines of its own moves up behind its key.
      const keyEnd = pair.key.range![1];
      const between = this.#text.slice(keyEnd, this.#start(node));
      if (isBlock(node) && !same && /^\s*:\s*$/.test(between)) {
        this.#splices.push({
          at: keyEnd + between.indexOf(':') + 1,
          end: this.#end(node),
          text: ` ${this.#style.inline(settled(value))}`,
        });
      } else this.#patch(node, value);
    } else if (value !== null) this.#put(pair.key.range![1], `: ${this.#style.inline(settled(value))}`);
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
    const first = this.#start(kept[0] ?? nodes[0]!);
    const last = kept.at(-1);
    for (const item of added) {
      const after = last === undefined || item instanceof InFront ? null : this.#end(last);
      const text = this.#style.inline(settled(item instanceof InFront ? item.value : item), this.#style.column(first));
      if (node.flow === true) this.#putFlow(node, text, after, first);
      else {
        const dash = this.#dashOf(this.#start(nodes[0]!));
        this.#putLine(after ?? this.#lineStart(dash) - 1, `- ${text}`, this.#style.column(dash));
      }
    }
    const items = nodes.map((item, i) => ({
      start: this.#start(item),
      end: this.#end(item),
      goes: value[i] === removed,
    }));
    if (node.flow === true) this.#cutFlow(items);
    else this.#cutLines(items.map((item) => (item.goes ? { ...item, start: this.#dashOf(item.start) } : item)));
  }

  #newPair(node: YAMLMap, key: string, value: unknown, column: number): string {
    const model = this.#copies.get(value);
    if (model !== undefined) return this.#style.pairLike(key, settled(value), node.get(model, true) as Node, column);
    const now = settled(value);
    if (column > 0 || !Array.isArray(now) || !now.every(isFields)) return this.#style.pair(key, now, column);
    // A new part of the plan stands apart where the others do.
    const apart = /\n\s*\n\S/.test(this.#text) ? this.#style.newLine : '';
    return apart + this.#style.blockList(key, now, column);
  }

  #replace(node: Node, value: unknown): void {
    const at = this.#start(node);
    const end = this.#end(node);
    const space = at === end && /\S/.test(this.#text[at - 1] ?? ' ') ? ' ' : '';
    this.#splices.push({ at, end, text: space + this.#style.inline(settled(value), this.#lineIndent(at)) });
  }

  #put(at: number, text: string): void {
    this.#splices.push({ at, end: at, text });
  }

  /** Puts a line after the one in which a place is. */
  #putLine(at: number, text: string, column: number): void {
    const indent = text.startsWith(this.#style.newLine) ? '' : ' '.repeat(column);
    this.#put(this.#lineEnd(at), `${this.#style.newLine}${indent}${text}`);
  }

  /** Puts an item in brackets after a place, or before the first; on a line of its own where the others are. */
  #putFlow(node: YAMLMap | YAMLSeq, text: string, after: number | null, first: number): void {
    const opening = this.#text.slice(node.range![0] + 1, first);
    const { comma, newLine } = this.#style;
    const between = opening.includes('\n') ? `,${newLine}${' '.repeat(this.#style.column(first))}` : comma;
    this.#put(after ?? first, after === null ? text + between : between + text);
  }

  #cutFlow(items: readonly Item[]): void {
    for (const [i, j] of gone(items)) {
      const next = items[j + 1];
      if (next !== undefined) this.#cut(items[i]!.start, next.start);
      else this.#cut(items[i - 1]!.end, items[j]!.end);
    }
  }

  #cutLines(items: readonly Item[]): void {
    for (const [i, j] of gone(items)) {
      const { start } = items[i]!;
      const line = this.#lineStart(start);
      const next = items[j + 1];
      // The first key of a list's item shares its line with the dash.
      if (/\S/.test(this.#text.slice(line, start)) && next !== undefined) this.#cut(start, next.start);
      else if (line === 0) this.#cut(0, next?.start ?? items[j]!.end);
      else this.#cut(this.#lineEnd(line - 1), this.#lineEnd(items[j]!.end));
    }
  }

  #cut(at: number, end: number): void {
    this.#splices.push({ at, end, text: '' });
  }

  #start(node: Node): number {
    return node.range![0];
  }

  /** Where what a node says ends: before comments, blank lines and whatever follows it. */
  #end(node: Node): number {
    if (isBlock(node) && isMap(node) && node.items.length > 0)
      return this.#endOf(node.items.at(-1) as Pair<Node, Node>);
    if (isBlock(node) && isSeq(node) && node.items.length > 0) return this.#end(node.items.at(-1) as Node);
    let end = node.range![1];
    while (end > node.range![0] && /\s/.test(this.#text[end - 1]!)) end--;
    return end;
  }

  #endOf(pair: Pair<Node, Node | null>): number {
    return isNode(pair.value) ? this.#end(pair.value) : this.#end(pair.key);
  }

  /** The dash of a list's item, which may stand on a line before it. */
  #dashOf(start: number): number {
    for (let at = start; at >= 0; at = this.#lineStart(at) - 1) {
      const line = this.#lineStart(at);
      const dash = /^[ \t]*-(?=\s)/.exec(this.#text.slice(line, start));
      if (dash !== null) return line + dash[0].length - 1;
      if (line === 0) break;
    }
    throw new Error('a list without a dash');
  }

  #lineStart(at: number): number {
    return this.#text.lastIndexOf('\n', at - 1) + 1;
  }

  /** End of the line of a place, before its line break. */
  #lineEnd(at: number): number {
    const end = this.#text.indexOf('\n', at);
    if (end < 0) return this.#text.length;
    return this.#text[end - 1] === '\r' ? end - 1 : end;
  }

  #lineIndent(at: number): number {
    const line = this.#text.slice(this.#lineStart(at), at);
    return line.length - line.trimStart().length;
  }
}

const nameOf = ({ key }: Pair<Node, unknown>): string => String(isScalar(key) ? key.value : key);

/** First and last of each group of neighbours that go. */
function gone(items: readonly Item[]): [number, number][] {
  const groups: [number, number][] = [];
  items.forEach(({ goes }, i) => {
    if (!goes) return;
    const last = groups.at(-1);
    if (last !== undefined && last[1] === i - 1) last[1] = i;
    else groups.push([i, i]);
  });
  return groups;
}

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
