import picocolors from 'picocolors';

/** Styles for text; each leaves the text as it is where colour is off. */
export interface Colours {
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
  readonly alarm: (text: string) => string;
}

/** Colour only for a person at a terminal: never in a file or a pipe, nor where NO_COLOR asks for none. */
export function coloursFor(stream: { readonly isTTY?: boolean }, env = process.env): Colours {
  const on = stream.isTTY === true && !env['NO_COLOR'] && env['TERM'] !== 'dumb';
  const { bold, dim, red } = picocolors.createColors(on);
  return { strong: bold, faint: dim, alarm: (text) => bold(red(text)) };
}

export const noColours: Colours = coloursFor({ isTTY: false });
