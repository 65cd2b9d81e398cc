import { grown } from './grown.js';

/** One slot a column, each to the next position: a strand walked from its end. */
export const STRAND = 1;
/** Two slots a column, to the next position and to one that stays the same: a chain between two junctions. */
export const CHAIN = 2;
/** Two slots a column, to the next two positions: two strands with cross leaks. */
export const BAND = 3;
/** Columns of any slots. */
export const STAR = 4;

/**
 * Runs of columns that one loop can work with its running values in registers, three numbers a run: first column, column
 * after the last, kind.
 *
 * The last column of a strand, chain or band may have any positions. Only the first column of a strand, chain or band
 * takes anything from columns outside its run; so does every column of stars. `fed` marks, by position, what takes
 * something from outside for other reasons; it is written over.
 */
export function runsOf(start: Int32Array, row: Int32Array, columns: number, fed: Uint8Array): Int32Array {
  let runs: Int32Array = new Int32Array(96);
  let length = 0;
  for (let k = 0; k < columns; ) {
    const s = start[k]!;
    const width = start[k + 1]! - s;
    let end = k + 1;
    let kind = STAR;
    const goesOn = (t: number, slots: number) =>
      end < columns && row[t] === end && fed[end] === 0 && start[end + 1]! - start[end]! === slots;
    if (width === 1) {
      kind = STRAND;
      for (let t = s; goesOn(t, 1); t++) end++;
    } else if (width === 2) {
      kind = CHAIN;
      const far = row[s + 1]!;
      if (far === k + 2 && fed[far] === 0 && goesOn(s, 2)) {
        kind = BAND;
        for (let t = s; goesOn(t, 2) && row[t + 1] === end + 1; t += 2) end++;
      } else {
        for (let t = s; goesOn(t, 2) && row[t + 3] === far; t += 2) end++;
      }
    } else {
      while (end < columns && (start[end + 1]! - start[end]! > 2 || start[end + 1] === start[end])) end++;
    }
    // What the run leaves goes to the positions of its last column; of stars, to those of every column.
    for (let t = kind === STAR ? s : start[end - 1]!; t < start[end]!; t++) fed[row[t]!] = 1;
    if (length === runs.length) runs = grown(runs, 2 * length);
    runs[length++] = k;
    runs[length++] = end;
    runs[length++] = kind;
    k = end;
  }
  return runs.slice(0, length);
}
