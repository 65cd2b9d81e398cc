const rotated = (x: number, by: number): number => (x << by) | (x >>> (32 - by));

/** Four 32-bit words of state from a text: FNV-1a over its UTF-16 units, then SplitMix32's finisher four times. */
function stateOf(text: string): Int32Array {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return Int32Array.from({ length: 4 }, () => {
    hash = (hash + 0x9e3779b9) | 0;
    let word = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
    word = Math.imul(word ^ (word >>> 13), 0xc2b2ae35);
    return word ^ (word >>> 16);
  });
}

/** A reproducible source of random numbers: xoshiro128** (D. Blackman and S. Vigna 2018, version 1.1). */
export class Random {
  readonly #state: Int32Array;

  /** Texts that differ give streams that have nothing to do with each other; or the four words of state themselves. */
  constructor(seed: string | readonly [number, number, number, number]) {
    this.#state = typeof seed === 'string' ? stateOf(seed) : Int32Array.from(seed);
  }

  /** The next 32 bits, as an integer from 0 to 2³² − 1. */
  word(): number {
    const s = this.#state;
    const result = Math.imul(rotated(Math.imul(s[1]!, 5), 7), 9);
    const shifted = s[1]! << 9;
    s[2]! ^= s[0]!;
    s[3]! ^= s[1]!;
    s[1]! ^= s[2]!;
    s[0]! ^= s[3]!;
    s[2]! ^= shifted;
    s[3] = rotated(s[3]!, 11);
    return result >>> 0;
  }

  /** From 0 to 1, either end left out. */
  next(): number {
    return (this.word() + 0.5) / 2 ** 32;
  }

  /** The numbers 0 to `count` − 1 in a random order (Fisher and Yates 1938). */
  permutation(count: number): Uint32Array {
    const order = Uint32Array.from({ length: count }, (_, i) => i);
    for (let i = count - 1; i > 0; i--) {
      const j = Math.floor(this.next() * (i + 1));
      const held = order[i]!;
      order[i] = order[j]!;
      order[j] = held;
    }
    return order;
  }
}
