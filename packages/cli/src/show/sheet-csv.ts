import type { ReadingsResult } from '@postvolt/core/studies';
import { csvLine } from '@postvolt/report/text';

/** Columns of a sheet: the first six are what fit and trace read, the rest is to look at. */
const heads = [
  ...['post', 'strand', 'kV', 'amps', 'towards', 'from'],
  ...['reason', 'name', 'expected kV', 'low kV', 'high kV', 'expected amps', 'low amps', 'high amps'],
];

/** The first condition's sheet as CSV with the readings left blank. */
export function* sheetCsv({ conditions }: ReadingsResult): Generator<string> {
  const kV = (volts: number) => (volts / 1000).toFixed(2);
  yield csvLine(heads);
  for (const { post, strand, wireTo, flows, reason, name, volts, amps } of conditions[0]!.lines) {
    yield csvLine([
      ...[post, strand, null, null],
      ...(amps === null ? [null, null] : flows === 'towards' ? [wireTo, null] : [null, wireTo]),
      ...[reason, name, kV(volts.typical), kV(volts.low), kV(volts.high)],
      ...(amps === null ? [null, null, null] : [amps.typical, amps.low, amps.high].map((value) => value.toFixed(2))),
    ]);
  }
}
