/** Ground rods by the rule of thumb. */
export interface ThumbRods {
  readonly count: number;
  readonly lengthM: number;
  readonly spacingM: number;
  /** The rule in words. */
  readonly rule: string;
}

const foot = 0.3048;

/**
 * Rods for an energizer by the farm press's rule: 3 ft of rod per joule of output, three 6 ft rods at the least, at least a
 * rod length apart; one short rod under a fence that is moved. Common practice, no source.
 */
export function rodsFor(joules: number, use: 'permanent' | 'temporary'): ThumbRods {
  if (use === 'temporary') {
    return {
      count: 1,
      lengthM: 3 * foot,
      spacingM: 3 * foot,
      rule: 'one short rod, as moved fence has; common practice, no source',
    };
  }
  return {
    count: Math.max(3, Math.ceil((3 * joules) / 6)),
    lengthM: 6 * foot,
    spacingM: 10 * foot,
    rule: '3 ft of rod a joule, three rods at the least; common practice, no source',
  };
}
