// Times two or more actions in turns, so that whatever else the machine does falls on all of them alike.

/** Untimed turns: so many at least, and for so long at least, that everything is compiled before the clock counts. */
const warmUpTurns = 8;
const warmUpMs = 500;

/** Median milliseconds of each action, by name; every repeat runs each once, after the untimed turns. */
export function medians(actions, repeats) {
  const names = Object.keys(actions);
  const since = performance.now();
  for (let i = 0; i < warmUpTurns || performance.now() - since < warmUpMs; i++)
    for (const name of names) actions[name]();
  const times = Object.fromEntries(names.map((name) => [name, []]));
  for (let i = 0; i < repeats; i++) {
    for (const name of names) {
      const start = process.hrtime.bigint();
      actions[name]();
      times[name].push(Number(process.hrtime.bigint() - start) / 1e6);
    }
  }
  return Object.fromEntries(names.map((name) => [name, median(times[name])]));
}

/** The middle of a list of numbers. */
export function median(numbers) {
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
