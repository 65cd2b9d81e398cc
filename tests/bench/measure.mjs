// Times two or more actions in turns, so that whatever else the machine does falls on all of them alike.

/** Median milliseconds of each action, by name; every repeat runs each once, after a few untimed turns. */
export function medians(actions, repeats, warmUp = 8) {
  const names = Object.keys(actions);
  for (let i = 0; i < warmUp; i++) for (const name of names) actions[name]();
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
