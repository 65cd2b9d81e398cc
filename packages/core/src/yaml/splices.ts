import type { YAMLMap, YAMLSeq } from 'yaml';
import { cannotWrite } from './cannot-write.js';
import type { TextPlaces } from './text-places.js';
import type { TextStyle } from './text-style.js';

/** A part of the text that is replaced; of no length where something is put in. */
interface Splice {
  readonly at: number;
  readonly end: number;
  readonly text: string;
}

/** An item of a list in brackets, or a pair of a map in brackets. */
export interface Item {
  readonly start: number;
  readonly end: number;
  readonly goes: boolean;
}

/** Edits of a text by their places, made all at once. */
export class Splices {
  readonly #text: string;
  readonly #places: TextPlaces;
  readonly #style: TextStyle;
  readonly #list: Splice[] = [];

  constructor(text: string, places: TextPlaces, style: TextStyle) {
    this.#text = text;
    this.#places = places;
    this.#style = style;
  }

  /** The text with every edit made. */
  applied(): string {
    const sorted = this.#list
      .map((splice, i) => ({ ...splice, i }))
      .sort((a, b) => a.at - b.at || Number(a.end > a.at) - Number(b.end > b.at) || a.i - b.i);
    let [out, from] = ['', 0];
    for (const { at, end, text } of sorted) {
      if (at < from) cannotWrite(`two changes of one place, at character ${at}`);
      out += this.#text.slice(from, at) + text;
      from = end;
    }
    return out + this.#text.slice(from);
  }

  replace(at: number, end: number, text: string): void {
    this.#list.push({ at, end, text });
  }

  put(at: number, text: string): void {
    this.replace(at, at, text);
  }

  /** Puts a line after the one in which a place is. */
  putLine(at: number, text: string, column: number): void {
    const indent = text.startsWith(this.#style.newLine) ? '' : ' '.repeat(column);
    this.put(this.#places.lineEnd(at), `${this.#style.newLine}${indent}${text}`);
  }

  /** Puts an item in brackets after a place, or before the first; on a line of its own where the others are. */
  putFlow(node: YAMLMap | YAMLSeq, text: string, after: number | null, first: number): void {
    const opening = this.#text.slice(node.range![0] + 1, first);
    const { comma, newLine } = this.#style;
    const between = opening.includes('\n') ? `,${newLine}${this.#style.margin(this.#style.column(first))}` : comma;
    this.put(after ?? first, after === null ? text + between : between + text);
  }

  cutFlow(items: readonly Item[]): void {
    for (const [i, j] of gone(items)) {
      const next = items[j + 1];
      if (next !== undefined) this.#cut(items[i]!.start, next.start);
      else this.#cut(items[i - 1]!.end, items[j]!.end);
    }
  }

  cutLines(items: readonly Item[]): void {
    for (const [i, j] of gone(items)) {
      const { start } = items[i]!;
      const line = this.#places.lineStart(start);
      const next = items[j + 1];
      // The first key of a list's item shares its line with the dash.
      if (/\S/.test(this.#text.slice(line, start)) && next !== undefined) this.#cut(start, next.start);
      else if (line === 0) this.#cut(0, next?.start ?? items[j]!.end);
      else this.#cut(this.#places.lineEnd(line - 1), this.#places.lineEnd(items[j]!.end));
    }
  }

  #cut(at: number, end: number): void {
    this.replace(at, end, '');
  }
}

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
