import type { Layout } from '../../network/layout.js';

/** A post as one of the runs that meet there has it. */
export interface ReadingPlace {
  readonly run: number;
  readonly post: number;
  /** A way that a wire goes on from there: towards higher post numbers, or lower ones. */
  readonly direction: 1 | -1;
}

/** A post by `run/number` or junction, in every run that has it; empty where there is none. Runs with hot strands come first. */
export function findPlaces(layout: Layout, name: string): ReadingPlace[] {
  const junction = layout.junctionOf.get(name.trim());
  if (junction !== undefined) {
    const isHot = (run: number) => layout.runs[run]!.strands.some(({ role }) => role === 'hot');
    return layout.ends[junction]!.map(({ run, end }): ReadingPlace => {
      const { spans } = layout.runs[run]!;
      return end === 'from' ? { run, post: 0, direction: 1 } : { run, post: spans, direction: -1 };
    }).sort((a, b) => Number(isHot(b.run)) - Number(isHot(a.run)));
  }
  const [, id, digits] = /^(.*)\/(\d+)$/.exec(name.trim()) ?? [];
  const run = id === undefined ? undefined : layout.runOf.get(id);
  const post = Number(digits);
  if (run === undefined || post > layout.runs[run]!.spans) return [];
  return [{ run, post, direction: post === layout.runs[run]!.spans ? -1 : 1 }];
}

/** The way from a post towards another post, a junction or a run; null where no wire leads there, or where two do. */
export function findDirection(layout: Layout, stands: readonly ReadingPlace[], towards: string): ReadingPlace | null {
  const name = towards.trim();
  const run = layout.runOf.get(name);
  const junction = layout.junctionOf.get(name);
  const ways = stands.flatMap((stand): ReadingPlace[] => {
    const { spans, from, to } = layout.runs[stand.run]!;
    const isEnd = stand.post === 0 || stand.post === spans;
    const found: ReadingPlace[] = [];
    if (run === stand.run && isEnd) found.push({ ...stand, direction: stand.post === 0 ? 1 : -1 });
    if (junction !== undefined) {
      if (from === junction && stand.post > 0) found.push({ ...stand, direction: -1 });
      if (to === junction && stand.post < spans) found.push({ ...stand, direction: 1 });
    }
    for (const other of findPlaces(layout, name)) {
      if (junction === undefined && other.run === stand.run && other.post !== stand.post)
        found.push({ ...stand, direction: other.post > stand.post ? 1 : -1 });
    }
    return found;
  });
  return ways.length === 1 ? ways[0]! : null;
}
