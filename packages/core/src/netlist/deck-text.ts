/** Longest comment that a deck takes from a plan; some simulators cut or refuse long lines. */
const longest = 160;

/**
 * Text of a plan as it may stand in a deck: one line of printable ASCII. Accents are dropped, other letters become `?`,
 * line breaks and control characters spaces; a backslash, which continues a line in some simulators, becomes a slash.
 */
export function deckText(text: string): string {
  const plain = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[\p{C}\p{Z}]+/gu, ' ')
    .replaceAll('\\', '/')
    .replace(/[^\x20-\x7e]/gu, '?')
    .trim();
  return plain.length <= longest ? plain : `${plain.slice(0, longest - 3)}...`;
}

/** A comment line. The space keeps `*#` and `*ng_script`, which some simulators obey, from arising. */
export const comment = (text: string): string => `* ${deckText(text)}`;

/** A number with all its digits: the shortest that reads back as the same double. */
export const deckNumber = (value: number): string => String(value);
