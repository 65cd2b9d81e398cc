/** Leading bits of a number's fraction that tell bins apart: 7 make a bin 0.4 to 0.8 % of its value wide, 3 make it 6 to 12 %. */
const [mostBits, leastBits] = [7, 3];
/** Octaves below the top that are told apart; all that is less falls into the lowest bin. */
const octaves = 10;
/** Bytes of counts beyond which bins are made wider. */
const mostBytes = 2 ** 28;

const float = new Float32Array(1);
const bits = new Int32Array(float.buffer);

/**
 * Counts of values from 0 up, one row a place, in bins of equal ratio: quantiles of any number of draws in fixed memory.
 *
 * A row takes 2.6 kB, or 5.1 kB for more than 65 535 draws; beyond 256 MB in all the bins are made wider. The bins are those
 * of the numbers' own binary form (leading bits of a 32-bit float), so that counting costs no logarithm.
 */
export class LogHistogram {
  /** Widest that a bin is, as a share of its value; within a bin a quantile is interpolated. */
  readonly binWidth: number;
  readonly #rows: number;
  readonly #shift: number;
  readonly #bins: number;
  readonly #lowest: number;
  readonly #counts: Uint16Array | Uint32Array;
  readonly #values: Float32Array;
  readonly #bits: Int32Array;

  /** `most` is the largest value that can come. */
  constructor(rows: number, most: number, draws: number) {
    const bytes = draws < 2 ** 16 ? 2 : 4;
    let fractionBits = mostBits;
    while (fractionBits > leastBits && rows * (octaves << fractionBits) * bytes > mostBytes) fractionBits--;
    this.binWidth = 2 ** -fractionBits;
    this.#rows = rows;
    this.#shift = 23 - fractionBits;
    this.#bins = (octaves << fractionBits) + 1;
    float[0] = most;
    this.#lowest = (bits[0]! >> this.#shift) - this.#bins + 1;
    this.#counts = bytes === 2 ? new Uint16Array(rows * this.#bins) : new Uint32Array(rows * this.#bins);
    this.#values = new Float32Array(rows);
    this.#bits = new Int32Array(this.#values.buffer);
  }

  /** Counts one value a row. */
  add(values: Float64Array): void {
    const last = this.#bins - 1;
    this.#values.set(values);
    for (let row = 0, first = 0; row < this.#rows; row++, first += this.#bins) {
      const bin = (this.#bits[row]! >> this.#shift) - this.#lowest;
      this.#counts[first + Math.min(Math.max(bin, 0), last)]!++;
    }
  }

  /** The value that each share of a row's counts lies below; `shares` rise, from 0 to 1. */
  quantiles(row: number, shares: readonly number[]): number[] {
    const counts = this.#counts.subarray(row * this.#bins, (row + 1) * this.#bins);
    let total = 0;
    for (const count of counts) total += count;
    let bin = 0;
    let below = 0;
    return shares.map((share) => {
      const wanted = share * total;
      while (bin < this.#bins - 1 && below + counts[bin]! < wanted) below += counts[bin++]!;
      const [from, to] = [bin === 0 ? 0 : this.#lowEnd(bin), this.#lowEnd(bin + 1)];
      return counts[bin] === 0 ? from : from + ((to - from) * (wanted - below)) / counts[bin]!;
    });
  }

  #lowEnd(bin: number): number {
    bits[0] = (this.#lowest + bin) << this.#shift;
    return float[0]!;
  }
}
