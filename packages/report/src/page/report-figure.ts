import type { FigureOptions } from '../look/figure.js';
import { el, Markup } from '../markup/element.js';

/** A figure of a report: drawn once for a wide page and once for a phone. */
export interface ReportFigure {
  readonly caption: string;
  /** Any figure of this package with its input filled in, such as `(options) => months(input, options)`. */
  readonly draw: (options: FigureOptions) => string;
}

const wide = 760;
const narrow = 344;

/** Both drawings with the caption; the style sheet shows the one that fits. */
export function figureMarkup({ caption, draw }: ReportFigure, id: string): Markup {
  const drawing = (kind: string, width: number) =>
    el('div', { class: kind }, new Markup(draw({ width, id: `${id}-${kind}`, standalone: false })));
  return el('figure', { id }, el('figcaption', {}, caption), drawing('wide', wide), drawing('narrow', narrow));
}
