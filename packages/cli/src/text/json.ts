/**
 * JSON text in pieces, each of the outer levels on lines of its own and what lies deeper in one line:
 * readable, easy to compare, and never one string, which a million posts would overflow.
 */
export function* json(value: unknown, levels = 4): Generator<string> {
  yield* pieces(value, levels, '\n');
  yield '\n';
}

function* pieces(value: unknown, levels: number, newline: string): Generator<string> {
  if (levels === 0 || typeof value !== 'object' || value === null) {
    yield JSON.stringify(value) ?? 'null';
    return;
  }
  const list = Array.isArray(value);
  const entries = Object.entries(value).filter(([, entry]) => entry !== undefined);
  const inner = `${newline}  `;
  let first = true;
  for (const [key, entry] of entries) {
    yield first ? `${list ? '[' : '{'}${inner}` : `,${inner}`;
    first = false;
    if (!list) yield `${JSON.stringify(key)}: `;
    yield* pieces(entry, levels - 1, inner);
  }
  const [open, close] = list ? '[]' : '{}';
  yield first ? `${open}${close}` : `${newline}${close}`;
}
