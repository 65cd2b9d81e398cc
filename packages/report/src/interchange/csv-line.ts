type Field = string | number | null;

/**
 * One line of comma-separated values as RFC 4180 has it: quotes where a field needs them, CRLF; empty for null.
 *
 * Text that a spreadsheet would take for a formula is led by an apostrophe.
 */
export const csvLine = (fields: readonly Field[]): string => `${fields.map(field).join(',')}\r\n`;

function field(value: Field): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const text = /^[=+\-@\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
