import { Document, isCollection, isMap, isSeq, type Node, type YAMLSeq } from 'yaml';
import { type Fields, isFields } from './edited-data.js';

/** How a text is written, and how to write more of it in the same way. */
export class TextStyle {
  readonly isJson: boolean;
  readonly newLine: string;
  readonly #text: string;
  readonly #mapPadding: boolean;
  readonly #listPadding: boolean;
  readonly #step: number;
  readonly #jsonIndent: string;
  readonly #jsonColon: string;
  readonly #jsonComma: string;

  constructor(text: string) {
    this.#text = text;
    this.isJson = isJsonText(text);
    this.newLine = text.includes('\r\n') ? '\r\n' : '\n';
    this.#mapPadding = !/\{[^\s}]/.test(text) || /\{ \S/.test(text);
    this.#listPadding = /\[ \S/.test(text);
    this.#step = /\n( +)[^\s#]/.exec(text)?.[1]?.length ?? 2;
    this.#jsonIndent = /\n([ \t]+)"/.exec(text)?.[1] ?? '';
    this.#jsonColon = text.includes('": ') ? ': ' : ':';
    this.#jsonComma = /["}\]], ["{[]/.test(text) ? ', ' : ',';
  }

  /** What stands between two items in brackets on one line. */
  get comma(): string {
    return this.isJson ? this.#jsonComma : ', ';
  }

  /** White space up to a column; JSON may have tabs, each a column. */
  margin(column: number): string {
    return (this.#jsonIndent.startsWith('\t') && this.isJson ? '\t' : ' ').repeat(column);
  }

  /** A value in one line; JSON over several where the text has several. */
  inline(value: unknown, column = 0): string {
    if (this.isJson) return this.#json(value, column);
    return this.#flow(value);
  }

  /** A key and its value, as `inline` writes them. */
  pair(key: string, value: unknown, column = 0): string {
    if (this.isJson) return `${JSON.stringify(key)}${this.#jsonColon}${this.#json(value, column)}`;
    return `${scalar(key)}: ${this.#flow(value)}`;
  }

  /** A key and a list of maps under it, one a line. */
  blockList(key: string, items: readonly unknown[], column: number): string {
    const indent = ' '.repeat(column + this.#step);
    return [`${scalar(key)}:`, ...items.map((item) => `${indent}- ${this.inline(item)}`)].join(this.newLine);
  }

  /**
   * A key and a value laid out as a present one is, without its comments. `likeColumn` is the column of that one's key, where
   * it is known.
   */
  pairLike(key: string, value: unknown, like: Node | null, column: number, likeColumn: number | null): string {
    if (!isBlock(like) || !isCollectionData(value)) return this.pair(key, value, column);
    const present = this.column(like.range?.[0] ?? 0);
    const usual = isSeq(like) && present <= column ? 0 : this.#step;
    const deeper = column + (likeColumn === null ? usual : present - likeColumn);
    return `${scalar(key)}:${this.newLine}${this.#block(value, like, deeper)}`;
  }

  /** Characters from the start of its line to a place. */
  column(at: number): number {
    return at - (this.#text.lastIndexOf('\n', at - 1) + 1);
  }

  #block(value: Fields | unknown[], like: Node, column: number): string {
    const indent = ' '.repeat(column);
    if (Array.isArray(value)) {
      const items = isSeq(like) ? (like.items as Node[]) : [];
      return value
        .map((item, i) => {
          const model = items[Math.min(i, items.length - 1)] ?? null;
          const text =
            isBlock(model) && isFields(item) ? this.#block(item, model, column + 2).trimStart() : this.inline(item);
          return `${indent}- ${text}`;
        })
        .join(this.newLine);
    }
    return Object.entries(value)
      .map(([key, item]) => {
        const model = isMap(like) ? ((like.get(key, true) as Node | undefined) ?? null) : null;
        return indent + this.pairLike(key, item, model, column, this.column(like.range?.[0] ?? 0));
      })
      .join(this.newLine);
  }

  #flow(value: unknown): string {
    if (Array.isArray(value)) {
      const items = value.map((item) => this.#flow(item)).join(', ');
      return this.#listPadding && items !== '' ? `[ ${items} ]` : `[${items}]`;
    }
    if (!isFields(value)) return scalar(value);
    const pairs = Object.entries(value).map(([key, item]) => `${scalar(key)}: ${this.#flow(item)}`);
    if (pairs.length === 0) return '{}';
    return this.#mapPadding ? `{ ${pairs.join(', ')} }` : `{${pairs.join(', ')}}`;
  }

  #json(value: unknown, column: number): string {
    const text = JSON.stringify(value, null, this.#jsonIndent);
    return text.replaceAll('\n', `${this.newLine}${this.margin(column)}`);
  }
}

/** A scalar that reads the same in brackets and out of them, in quotes where it has to be. */
const scalar = (value: unknown): string => {
  const document = new Document([value]);
  (document.contents as YAMLSeq).flow = true;
  return document.toString({ lineWidth: 0, flowCollectionPadding: false }).trim().slice(1, -1);
};

/** Whether a text is JSON rather than YAML: it begins with a bracket and reads as JSON. */
function isJsonText(text: string): boolean {
  if (!/^\uFEFF?\s*[{[]/.test(text)) return false;
  try {
    JSON.parse(text.replace(/^\uFEFF/, ''));
    return true;
  } catch {
    return false;
  }
}

const isCollectionData = (value: unknown): value is Fields | unknown[] => isFields(value) || Array.isArray(value);

/** Whether a node is a map or list over several lines rather than in brackets. */
export const isBlock = (node: unknown): node is Node => isCollection(node) && node.flow !== true;
