/** The known name that a misspelt one most likely meant; null where none is near. Compares by edit distance, whatever the case. */
export function nearest(found: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let fewest = Math.max(2, Math.floor(found.length / 3)) + 1;
  for (const name of known) {
    const edits = distance(found.slice(0, 60).toLowerCase(), name.toLowerCase());
    if (edits < fewest) [best, fewest] = [name, edits];
  }
  return best;
}

/** Insertions, deletions and replacements from one text to the other (V. I. Levenshtein 1966). */
function distance(a: string, b: string): number {
  let before = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = before[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(replaced, before[j]! + 1, row[j - 1]! + 1));
    }
    before = row;
  }
  return before[b.length]!;
}
