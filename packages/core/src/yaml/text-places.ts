import { isMap, isNode, isSeq, type Node, type Pair } from 'yaml';
import { cannotWrite } from './cannot-write.js';
import { isBlock } from './text-style.js';

/** Characters before a key or an item in which its anchor and tag are looked for. */
const longestMarks = 200;

/** Where in a text the nodes that were read from it, and its lines, begin and end. */
export class TextPlaces {
  readonly #text: string;

  constructor(text: string) {
    this.#text = text;
  }

  start(node: Node): number {
    return node.range![0];
  }

  /** Where a key or an item starts, with the anchor, tag or question mark that may stand before it. */
  outset(node: Node): number {
    const start = this.start(node);
    const line = this.#text.slice(Math.max(0, start - longestMarks), start);
    const before = /(?:\?[ \t]+)?(?:[&!][^\s,[\]{}]*[ \t]+)*$/.exec(line);
    return start - (before?.[0].length ?? 0);
  }

  /** Where what a node says ends: before comments, blank lines and whatever follows it. */
  end(node: Node): number {
    if (isBlock(node) && isMap(node) && node.items.length > 0) return this.endOf(node.items.at(-1) as Pair<Node, Node>);
    if (isBlock(node) && isSeq(node) && node.items.length > 0) return this.end(node.items.at(-1) as Node);
    let end = node.range![1];
    while (end > node.range![0] && /\s/.test(this.#text[end - 1]!)) end--;
    return end;
  }

  endOf(pair: Pair<Node, Node | null>): number {
    return isNode(pair.value) ? this.end(pair.value) : this.end(pair.key);
  }

  /** The dash of a list's item, which may stand on a line before it. */
  dashOf(start: number): number {
    for (let at = start; at >= 0; at = this.lineStart(at) - 1) {
      const line = this.lineStart(at);
      const dash = /^[ \t]*-(?=\s)/.exec(this.#text.slice(line, start));
      if (dash !== null) return line + dash[0].length - 1;
      if (line === 0) break;
    }
    return cannotWrite('a list in which an item has no dash of its own');
  }

  lineStart(at: number): number {
    return this.#text.lastIndexOf('\n', at - 1) + 1;
  }

  /** End of the line of a place, before its line break. */
  lineEnd(at: number): number {
    const end = this.#text.indexOf('\n', at);
    if (end < 0) return this.#text.length;
    return this.#text[end - 1] === '\r' ? end - 1 : end;
  }

  lineIndent(at: number): number {
    const line = this.#text.slice(this.lineStart(at), at);
    return line.length - line.trimStart().length;
  }
}
