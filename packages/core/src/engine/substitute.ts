import type { Analysis } from './analyse.js';
import { BAND, CHAIN, STRAND } from './runs.js';

// The solve part, one loop for each kind of run: forward, a node's current goes to its neighbours in the shares w; backward,
// its potential is that of its neighbours in the same shares, plus its own current over S.
// Strands go two columns a turn: JavaScript engines check every array anew at each turn of a loop, which costs as much as
// the arithmetic.

/**
 * Sends currents from the first position to the last: `x` becomes, by position, the current that comes together, over S.
 *
 * `inbox` is zero before and after, but for the terminals' positions, where it holds what came to them.
 */
export function forward(
  analysis: Analysis,
  share: Float64Array,
  inverse: Float64Array,
  amps: Float64Array,
  inbox: Float64Array,
  x: Float64Array,
): void {
  const { order, start, row, runs } = analysis;
  for (let r = 0; r < runs.length; r += 3) {
    const first = runs[r]!;
    const end = runs[r + 1]!;
    const kind = runs[r + 2]!;
    let s = start[first]!;
    let carried = inbox[first]!;
    inbox[first] = 0;
    if (kind === STRAND) {
      let k = first;
      for (; k + 1 < end; k += 2, s += 2) {
        const xk = amps[order[k]!]! + carried;
        x[k] = xk * inverse[k]!;
        const xNext = amps[order[k + 1]!]! + share[s]! * xk;
        x[k + 1] = xNext * inverse[k + 1]!;
        carried = share[s + 1]! * xNext;
      }
      if (k < end) {
        const xk = amps[order[k]!]! + carried;
        x[k] = xk * inverse[k]!;
        carried = share[s++]! * xk;
      }
      inbox[row[s - 1]!]! += carried;
    } else if (kind === CHAIN) {
      let far = 0;
      let k = first;
      for (; k + 1 < end; k += 2, s += 4) {
        const xk = amps[order[k]!]! + carried;
        x[k] = xk * inverse[k]!;
        const xNext = amps[order[k + 1]!]! + share[s]! * xk;
        x[k + 1] = xNext * inverse[k + 1]!;
        carried = share[s + 2]! * xNext;
        far += share[s + 1]! * xk + share[s + 3]! * xNext;
      }
      if (k < end) {
        const xk = amps[order[k]!]! + carried;
        x[k] = xk * inverse[k]!;
        carried = share[s]! * xk;
        far += share[s + 1]! * xk;
        s += 2;
      }
      inbox[row[s - 2]!]! += carried;
      inbox[row[s - 1]!]! += far;
    } else if (kind === BAND) {
      let next = 0;
      for (let k = first; k < end; k++, s += 2) {
        const xk = amps[order[k]!]! + carried;
        carried = next + share[s]! * xk;
        next = share[s + 1]! * xk;
        x[k] = xk * inverse[k]!;
      }
      inbox[row[s - 2]!]! += carried;
      inbox[row[s - 1]!]! += next;
    } else {
      for (let k = first; k < end; k++) {
        const xk = amps[order[k]!]! + carried;
        for (const stop = start[k + 1]!; s < stop; s++) inbox[row[s]!]! += share[s]! * xk;
        x[k] = xk * inverse[k]!;
        if (k + 1 === end) break;
        carried = inbox[k + 1]!;
        inbox[k + 1] = 0;
      }
    }
  }
}

/** Works out potentials from the last position to the first; those of the terminals stand in `volts` already. */
export function backward(analysis: Analysis, share: Float64Array, x: Float64Array, volts: Float64Array): void {
  const { order, start, row, runs } = analysis;
  for (let r = runs.length - 3; r >= 0; r -= 3) {
    const first = runs[r]!;
    const end = runs[r + 1]!;
    const kind = runs[r + 2]!;
    let s = start[end]! - 1;
    if (kind === STRAND) {
      let v = volts[order[row[s]!]!]!;
      let k = end - 1;
      for (; k > first; k -= 2, s -= 2) {
        v = x[k]! + share[s]! * v;
        volts[order[k]!] = v;
        v = x[k - 1]! + share[s - 1]! * v;
        volts[order[k - 1]!] = v;
      }
      if (k === first) volts[order[k]!] = x[k]! + share[s]! * v;
    } else if (kind === CHAIN) {
      const far = volts[order[row[s]!]!]!;
      let v = volts[order[row[s - 1]!]!]!;
      let k = end - 1;
      for (; k > first; k -= 2, s -= 4) {
        v = x[k]! + share[s]! * far + share[s - 1]! * v;
        volts[order[k]!] = v;
        v = x[k - 1]! + share[s - 2]! * far + share[s - 3]! * v;
        volts[order[k - 1]!] = v;
      }
      if (k === first) volts[order[k]!] = x[k]! + share[s]! * far + share[s - 1]! * v;
    } else if (kind === BAND) {
      let next = volts[order[row[s]!]!]!;
      let v = volts[order[row[s - 1]!]!]!;
      for (let k = end - 1; k >= first; k--, s -= 2) {
        const vk = x[k]! + share[s]! * next + share[s - 1]! * v;
        volts[order[k]!] = vk;
        next = v;
        v = vk;
      }
    } else {
      for (let k = end - 1; k >= first; k--) {
        let vk = x[k]!;
        for (const stop = start[k]!; s >= stop; s--) vk += share[s]! * volts[order[row[s]!]!]!;
        volts[order[k]!] = vk;
      }
    }
  }
}
