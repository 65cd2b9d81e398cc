/** Records of comma-separated values, strictly as RFC 4180 writes them; throws where they are not. */
export function parseCsv(text: string): string[][] {
  const records: string[][] = [[]];
  const field = /("(?:[^"]|"")*"|[^",\r\n]*)(,|\r\n|$)/y;
  while (field.lastIndex < text.length) {
    const at = field.lastIndex;
    const match = field.exec(text);
    if (!match) throw new Error(`no field at ${at}: ${JSON.stringify(text.slice(at, at + 40))}`);
    const [, raw, end] = match;
    records.at(-1)!.push(raw!.startsWith('"') ? raw!.slice(1, -1).replaceAll('""', '"') : raw!);
    if (end === '\r\n' && field.lastIndex < text.length) records.push([]);
  }
  if (new Set(records.map((record) => record.length)).size > 1)
    throw new Error('records differ in their number of fields');
  return records;
}
