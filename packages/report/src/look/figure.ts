import { type Child, el, type Markup } from '../markup/element.js';
import { figureCss } from './figure-css.js';
import { cutText, textWidth, wrapText } from './text-width.js';
import { paint, type Role } from './theme.js';

/** How a figure is drawn; the same for all figures. */
export interface FigureOptions {
  /** In pixels; the height follows. Default 760; about 340 suits a phone. */
  readonly width?: number;
  /** Start of the ids inside, unique on a page that shows several figures. Default `figure`. */
  readonly id?: string;
  /** True (the default) for a file of its own: title drawn, paper behind, style sheet inside. A page sets it false. */
  readonly standalone?: boolean;
}

/** What a figure says in words: a heading, and what a reader who does not see it should know. */
export interface FigureWords {
  readonly title: string;
  readonly description: string;
}

export const figureWidth = (options: FigureOptions): number => Math.max(240, options.width ?? 760);

/** Below this width a figure is laid out for a phone. */
export const isNarrow = (options: FigureOptions): boolean => figureWidth(options) < 520;

export const fontFamily = "'Helvetica Neue',Arial,'Liberation Sans',sans-serif";
export const fontSize = 12;

/** The SVG element round a figure's content, with its words for those who hear it. */
export function figure(
  { title, description }: FigureWords,
  height: number,
  options: FigureOptions,
  ...content: readonly Child[]
): string {
  const { id = 'figure', standalone = true } = options;
  const width = figureWidth(options);
  const heading = standalone ? wrapText(title, width - 24, 15) : [];
  const top = heading.length > 0 ? heading.length * 19 + 12 : 0;
  const total = Math.ceil(height + top + (standalone ? 10 : 0));
  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'pv',
      viewBox: `0 0 ${width} ${total}`,
      width,
      height: total,
      role: 'img',
      'aria-labelledby': `${id}-title ${id}-desc`,
      'font-family': fontFamily,
      'font-size': fontSize,
    },
    el('title', { id: `${id}-title` }, title),
    el('desc', { id: `${id}-desc` }, description),
    standalone ? el('style', {}, figureCss('svg.pv')) : null,
    standalone ? el('rect', { width, height: total, ...paint({ fill: 'paper' }) }) : null,
    ...heading.map((line, i) =>
      el('text', { x: 12, y: 24 + i * 19, 'font-size': 15, 'font-weight': 600, ...paint({ fill: 'ink' }) }, line),
    ),
    top > 0 ? el('g', { transform: `translate(0 ${top})` }, ...content) : content,
  ).text;
}

export interface LabelOptions {
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly role?: Role;
  readonly size?: number;
  readonly bold?: boolean;
  /** Clears the paper round the letters where they stand on lines. */
  readonly halo?: boolean;
  /** Cuts the text to this width; the whole text stays as its title. */
  readonly width?: number;
  /** Quieter words before the text. */
  readonly lead?: string;
}

/** A line of text. */
export function label(text: string, x: number, y: number, options: LabelOptions = {}): Markup {
  const { anchor = 'start', role = 'ink', size = fontSize, bold = false, halo = false, width, lead } = options;
  const shown = width === undefined ? text : cutText(text, width, size, bold);
  return el(
    'text',
    {
      x,
      y,
      'text-anchor': anchor === 'start' ? null : anchor,
      'font-size': size === fontSize ? null : size,
      'font-weight': bold ? 600 : null,
      ...(halo ? paint({ fill: role, stroke: 'paper' }) : paint({ fill: role })),
      ...(halo ? { 'stroke-width': 3.5, 'paint-order': 'stroke', 'stroke-linejoin': 'round' } : {}),
    },
    shown === text ? null : el('title', {}, text),
    lead === undefined ? null : el('tspan', { 'font-weight': 400, ...paint({ fill: 'soft' }) }, lead),
    shown,
  );
}

export { textWidth };
