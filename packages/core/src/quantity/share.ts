import { fail, type QuantityOutcome } from './fault.js';
import { longestText, normalise } from './normalise.js';
import { scanNumber } from './scan-number.js';

/** Reads a share: `15 %` or a bare 0.15, from 0 to `most`. */
export function readShare(value: unknown, most = 1): QuantityOutcome<number> {
  const expected = `a share from 0 to ${most * 100} %, such as 15 %`;
  if (typeof value !== 'number' && typeof value !== 'string') return fail('bad-quantity', value, expected);
  const text = typeof value === 'number' ? String(value) : value.length > longestText ? '' : normalise(value);
  const scanned = scanNumber(text);
  if (scanned === null || (scanned.rest !== '' && scanned.rest !== '%')) return fail('bad-quantity', value, expected);
  const share = scanned.rest === '%' ? scanned.value / 100 : scanned.value;
  if (!(share >= 0 && share <= most)) {
    return fail(
      'out-of-range',
      value,
      expected,
      share > most && share <= 100 * most && scanned.rest === '' ? `Did you mean ${scanned.value} %?` : '',
    );
  }
  return { ok: true, value: share };
}
