/** Least number of insertions, deletions, changes and swaps of neighbours that make one text of another. */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      let best = Math.min(change, last[j]! + 1, row[j - 1]! + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, before[j - 2]! + 1);
      row.push(best);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}

/** Candidates beyond this number are not compared, which keeps a bad name in a huge plan cheap. */
const mostCandidates = 2000;

/** The number that a name starts with: `12.5 ga` and `14 ga` are different things, however like their letters are. */
const numberIn = (name: string): number => Number.parseFloat(name);

/** Whether two numbers are within a quarter of each other; names without a number may be taken for any. */
const areNear = (a: number, b: number): boolean =>
  Number.isNaN(a) || Number.isNaN(b) || Math.abs(a - b) <= 0.25 * Math.max(a, b);

/** The known name nearest to a misspelt one; null where none is near enough to be meant. */
export function nearest(name: string, known: Iterable<string>): string | null {
  const wanted = name.trim().toLowerCase().slice(0, 80);
  let best: string | null = null;
  let least = Math.max(1, Math.floor(wanted.length / 3)) + 0.5;
  let compared = 0;
  for (const candidate of known) {
    if (++compared > mostCandidates) break;
    const text = candidate.toLowerCase();
    if (!areNear(numberIn(wanted), numberIn(text))) continue;
    // A name inside the other is likelier meant than one that shares only letters.
    const inside = wanted.length >= 3 && text.length >= 3 && (text.includes(wanted) || wanted.includes(text));
    const distance = inside ? Math.min(1, editDistance(wanted, text)) : editDistance(wanted, text);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** `Did you mean "loam"?`, or the known names where few, or nothing. */
export function suggestion(name: string, known: Iterable<string>): string {
  const names = [...known];
  const near = nearest(name, names);
  if (near !== null) return `Did you mean "${near}"?`;
  return names.length > 0 && names.length <= 12 ? `Known: ${names.map((n) => `"${n}"`).join(', ')}.` : '';
}
