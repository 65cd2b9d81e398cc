/**
 * Colours by role, for paper and for a dark screen. Lines keep 3:1 and text 4.5:1 against the paper (WCAG 2.2, 1.4.3 and
 * 1.4.11); the line colours stay apart for the three kinds of colour blindness, and dash and mark tell them apart too.
 */
const light = {
  paper: '#fcfbf7',
  /** Behind tables' heads and quiet panels. */
  wash: '#f2efe6',
  ink: '#1d2630',
  /** Secondary text. */
  soft: '#55606b',
  /** Grid lines and table rules; never alone in saying something. */
  rule: '#d9d4c7',
  /** Axes and thin outlines. */
  line: '#7d8389',
  /** Weakest post, and what falls short. */
  seal: '#9c3a20',
  /** Bars. */
  bar: '#3d5f82',
  barSoft: '#a9bccd',
  line0: '#17395d',
  line1: '#c4731b',
  line2: '#3f86d8',
  line3: '#7c1f3a',
  line4: '#3f5b12',
  line5: '#b8739a',
  line6: '#7d6a56',
  // One hue, more ink for more volts.
  volts0: '#e4ebf1',
  volts1: '#cfdce8',
  volts2: '#b6cadc',
  volts3: '#9ab5ce',
  volts4: '#7d9ebd',
  volts5: '#6187aa',
  volts6: '#476f96',
  volts7: '#2f577f',
  volts8: '#173f66',
};

export type Role = keyof typeof light;

const dark: Record<Role, string> = {
  paper: '#15191e',
  wash: '#1f252c',
  ink: '#e9e5da',
  soft: '#aab1b9',
  rule: '#39414a',
  line: '#838b94',
  seal: '#f0957c',
  bar: '#8fb4d9',
  barSoft: '#4b6480',
  line0: '#a9cbf2',
  line1: '#d9822b',
  line2: '#4f7fe0',
  line3: '#f0b2a6',
  line4: '#e3dc7a',
  line5: '#b86ba6',
  line6: '#63a89b',
  volts0: '#243140',
  volts1: '#2d4056',
  volts2: '#38516c',
  volts3: '#456382',
  volts4: '#557799',
  volts5: '#688cb0',
  volts6: '#80a4c7',
  volts7: '#9fbfdd',
  volts8: '#c5dcf2',
};

export const themes = { light, dark };

export const roles = Object.keys(light) as Role[];

/** Steps of the volts scale. */
export const voltsSteps = 9;

/**
 * Attributes that colour an element: the plain colour for programs that draw SVG without style sheets, and classes
 * by which the style sheet sets the same role for light, dark and print.
 */
export function paint(what: { readonly fill?: Role | 'none'; readonly stroke?: Role | 'none' }, ...classes: string[]) {
  const { fill, stroke } = what;
  const named = [
    fill && fill !== 'none' ? `f-${fill}` : null,
    stroke && stroke !== 'none' ? `s-${stroke}` : null,
    ...classes,
  ].filter((name) => name !== null);
  return {
    fill: fill && fill !== 'none' ? light[fill] : fill,
    stroke: stroke && stroke !== 'none' ? light[stroke] : stroke,
    class: named.length > 0 ? named.join(' ') : undefined,
  };
}
