/** A meter's number as it shows it: a tenth of a kilovolt, a tenth of an ampere. */
export const reading = (kind: 'volts' | 'amps', value: number): string =>
  (kind === 'volts' ? value / 1000 : value)
    .toFixed(1)
    .replace(/^-0\.0$/, '0.0')
    .replace('-', '−');

export const readingUnit = (kind: 'volts' | 'amps'): string => (kind === 'volts' ? 'kV' : 'A');
