/** Lines of comma-separated values as RFC 4180 has them: CRLF, quotes where a field needs them, doubled inside. */
export function* csv(heads: readonly string[], rows: Iterable<readonly (string | number | null)[]>): Generator<string> {
  yield line(heads);
  for (const row of rows) yield line(row);
}

const line = (fields: readonly (string | number | null)[]): string => `${fields.map(field).join(',')}\r\n`;

function field(value: string | number | null): string {
  if (value === null) return '';
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
