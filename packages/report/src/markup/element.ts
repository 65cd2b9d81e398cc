import { escapeAttribute, escapeText } from './escape.js';

/** Markup that is finished and safe; a plain string is text still to be escaped. */
export class Markup {
  constructor(readonly text: string) {}
}

export type Child = Markup | string | null | readonly Child[];

export type Attributes = Readonly<Record<string, string | number | null | undefined>>;

/** Elements that close themselves: HTML's void ones, and SVG shapes that have no content here. */
const selfClosing = new Set(['br', 'col', 'meta', 'circle', 'line', 'path', 'rect', 'stop', 'use']);

/** One element of HTML or SVG. Strings are escaped; an attribute that is null or undefined is left out. */
export function el(name: string, attributes: Attributes, ...children: readonly Child[]): Markup {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== null && value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? decimals(value) : escapeAttribute(String(value))}"`)
    .join('');
  const inner = children.map(textOf).join('');
  return new Markup(
    inner === '' && selfClosing.has(name) ? `<${name}${written}/>` : `<${name}${written}>${inner}</${name}>`,
  );
}

/** Several pieces without an element round them. */
export const join = (...children: readonly Child[]): Markup => new Markup(children.map(textOf).join(''));

function textOf(child: Child): string {
  if (child === null) return '';
  if (typeof child === 'string') return escapeText(child);
  return child instanceof Markup ? child.text : child.map(textOf).join('');
}

/** A coordinate to a hundredth of a unit. Throws for what is no number: a drawing with a hole in it is a defect. */
export function decimals(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`a drawing has a coordinate that is ${value}`);
  return String(Math.round(value * 100) / 100 || 0);
}
