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
    const junction = at === 0 ? run.from : at === posts.length - 1 ? run.to : null;
    if (junction === null || junction === plan.energizer.junction) break;
    const next = onwards(plan, profileOf, used, junction, posts[at]!.distanceM);
    run = next?.run;
    start = next?.start ?? -1;
  }
  return parts;
}

/** A run not yet used that leads from a junction nearer to the energizer, straight on or behind a cable. */
function onwards(
  plan: ResolvedPlan,
  profileOf: ReadonlyMap<string, RunProfile['posts']>,
  used: ReadonlySet<string>,
  junction: string,
  here: number,
): { readonly run: ResolvedPlan['runs'][number]; readonly start: number } | null {
  const beyond = plan.links.flatMap(({ from, to }) => (from === junction ? [to] : to === junction ? [from] : []));
  for (const place of [junction, ...beyond]) {
    for (const run of plan.runs) {
      const posts = profileOf.get(run.id)!;
      if (used.has(run.id) || posts.length < 2) continue;
      if (run.from === place && posts[1]!.distanceM < here) return { run, start: 0 };
      if (run.to === place && posts.at(-2)!.distanceM < here) return { run, start: posts.length - 1 };
    }
  }
  return null;
}
