import type { ResolvedPlan } from '@postvolt/core';
import type { RunProfile } from './run-profiles.js';

/** A stretch of a run by indices into its profile, both included. */
export interface WayPart {
  readonly run: string;
  readonly from: number;
  readonly to: number;
}

/** The way that the pulse takes from the energizer to a post, as stretches of runs, nearest the post first. */
export function wayTo(
  plan: ResolvedPlan,
  profiles: readonly RunProfile[],
  place: { readonly run: string; readonly post: number },
): WayPart[] {
  const profileOf = new Map(profiles.map((profile) => [profile.run, profile.posts]));
  const parts: WayPart[] = [];
  const used = new Set<string>();
  let run = plan.runs.find(({ id }) => id === place.run);
  let start = profileOf.get(place.run)?.findIndex(({ post }) => post === place.post) ?? -1;
  while (run !== undefined && start >= 0) {
    const posts = profileOf.get(run.id)!;
    used.add(run.id);
    let at = start;
    const step = (posts[at - 1]?.distanceM ?? Infinity) <= (posts[at + 1]?.distanceM ?? Infinity) ? -1 : 1;
    while ((posts[at + step]?.distanceM ?? Infinity) < posts[at]!.distanceM) at += step;
    if (at !== start) parts.push({ run: run.id, from: Math.min(start, at), to: Math.max(start, at) });
    const here = posts[at]!.distanceM;
    const junction = at === 0 ? run.from : at === posts.length - 1 ? run.to : null;
    if (junction === null || junction === plan.energizer.junction) break;
    // On by a run of the same junction that leads nearer to the energizer.
    run = plan.runs.find(({ id, from, to }) => {
      const next = profileOf.get(id)!;
      if (used.has(id) || next.length < 2) return false;
      if (from === junction && next[1]!.distanceM < here) start = 0;
      else if (to === junction && next.at(-2)!.distanceM < here) start = next.length - 1;
      else return false;
      return true;
    });
  }
  return parts;
}
