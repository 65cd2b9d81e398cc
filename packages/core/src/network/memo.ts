type Part = string | number;

/**
 * Answers found again by the parts of their key, map by map, without writing a text of the key each time.
 * Keys that begin alike have the same length.
 */
export class Memo<Answer> {
  readonly #root = new Map<Part, unknown>();

  once(key: readonly Part[], make: () => Answer): Answer {
    let map = this.#root;
    const last = key.length - 1;
    for (let i = 0; i < last; i++) {
      const inner = map.get(key[i]!) as Map<Part, unknown> | undefined;
      if (inner !== undefined) map = inner;
      else {
        const added = new Map<Part, unknown>();
        map.set(key[i]!, added);
        map = added;
      }
    }
    const known = map.get(key[last]!) as Answer | undefined;
    if (known !== undefined) return known;
    const answer = make();
    map.set(key[last]!, answer);
    return answer;
  }
}
