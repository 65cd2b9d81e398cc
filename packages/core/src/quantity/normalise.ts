/** Longest text that is read as a quantity or a name. */
export const longestText = 200;

const vulgar: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** Plain ASCII spelling of what keyboards and word processors make of a quantity: `12½ Ω·m` as `12 1/2 ohm*m`. */
export function normalise(text: string): string {
  return (
    text
      .replace(
        /(\d?)([½¼¾⅓⅔⅛⅜⅝⅞])/gu,
        (_, digit: string, glyph: string) => `${digit === '' ? '' : `${digit} `}${vulgar[glyph]}`,
      )
      // Prime marks come apart under NFKC (″ into two ′), so they go first.
      .replace(/[″”“‟]/gu, '"')
      .replace(/[′’‘‵]/gu, "'")
      .normalize('NFKC')
      .replace(/\s+/gu, ' ')
      .replace(/[−‒–—]/gu, '-')
      .replace(/[⁄∕]/gu, '/')
      .replace(/[·⋅•×]/gu, '*')
      .replace(/Ω/gu, 'ohm')
      .replace(/[μµ]/gu, 'u')
      .replace(/°\s*([CF])/gu, 'deg$1')
      .trim()
  );
}

const unitWords: Readonly<Record<string, string>> = {
  "'": 'ft',
  '"': 'in',
  "''": 'in',
  metre: 'm',
  metres: 'm',
  kilometre: 'km',
  kilometres: 'km',
  centimetre: 'cm',
  centimetres: 'cm',
  millimetre: 'mm',
  millimetres: 'mm',
  micron: 'um',
  microns: 'um',
  ohmm: 'ohm*m',
  kilohm: 'kohm',
  kilohms: 'kohm',
  megohm: 'Mohm',
  megohms: 'Mohm',
  mho: 'S',
  mhos: 'S',
  usec: 'us',
  usecs: 'us',
  msec: 'ms',
  sec: 's',
  per: '/',
  yr: 'year',
  yrs: 'year',
  lbs: 'lbf',
  lb: 'lbf',
  C: 'degC',
  F: 'degF',
};

/** mathjs's spelling of a unit as people write it: `Ω·metre`, `ohm-m`, `feet.` */
export function normaliseUnit(text: string): string {
  return text
    .replace(/\.+(?=\s|$)/g, '')
    .replace(/(?<=[A-Za-z])\s*-\s*(?=[A-Za-z])/g, '*')
    .replace(/[A-Za-z]+|''|["']/g, (word) => {
      if (Object.hasOwn(unitWords, word)) return unitWords[word]!;
      const lower = word.toLowerCase();
      if (Object.hasOwn(unitWords, lower)) return unitWords[lower]!;
      return word.replace(/^([kMGmun]?)Ohm(s?)$/, '$1ohm$2');
    })
    .replace(/\s*([*/])\s*/g, '$1')
    .trim();
}
