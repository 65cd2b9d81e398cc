import {
  type SymbolType,
  symbol,
  symbolCircle,
  symbolCross,
  symbolDiamond,
  symbolSquare,
  symbolStar,
  symbolTriangle,
  symbolWye,
} from 'd3-shape';
import { type Attributes, el, type Markup } from '../markup/element.js';
import { paint, type Role } from './theme.js';

const colours: readonly Role[] = ['line0', 'line1', 'line2', 'line3', 'line4', 'line5', 'line6'];
const dashes = [null, '8 3', '2.5 2.5', '10 3 2.5 3', '5 2', '12 3 2 3 2 3', '1.5 3.5', '14 4'];
const marks: readonly SymbolType[] = [
  symbolCircle,
  symbolSquare,
  symbolTriangle,
  symbolDiamond,
  symbolCross,
  symbolWye,
  symbolStar,
];

/** How one of several lines is drawn: told apart by dash and mark as well as by colour. */
export interface LineStyle {
  readonly role: Role;
  readonly dash: string | null;
  readonly mark: SymbolType;
}

/** Style of the line with this index; colour, dash and mark go round at different paces, so that 56 differ. */
export const lineStyle = (index: number): LineStyle => ({
  role: colours[index % colours.length]!,
  dash: dashes[index % dashes.length]!,
  mark: marks[index % marks.length]!,
});

/** The mark of a line, centred on a place, with a rim of paper that keeps it clear of the line. */
export function lineMark(style: LineStyle, x: number, y: number, area = 52): Markup {
  return el('path', {
    d: symbol(style.mark, area).digits(1)() ?? '',
    transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})`,
    'stroke-width': 1.4,
    ...paint({ fill: style.role, stroke: 'paper' }),
  });
}

/** Attributes of a path drawn in a line's style. */
export const lineAttributes = (style: LineStyle, width: number): Attributes => ({
  'stroke-width': width,
  'stroke-dasharray': style.dash,
  'stroke-linejoin': 'round',
  ...paint({ fill: 'none', stroke: style.role }),
});

/** A short sample of a line with its mark, for a key; 30 wide. */
export const lineSample = (style: LineStyle, x: number, y: number): Markup[] => [
  el('path', { d: `M${x.toFixed(1)} ${y.toFixed(1)}h30`, ...lineAttributes(style, 2) }),
  lineMark(style, x + 15, y, 42),
];
