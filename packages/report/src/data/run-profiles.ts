import {
  type ComparedVolts,
  type ConditionResult,
  lowestHot,
  type ResolvedPlan,
  type StrandStatus,
} from '@postvolt/core';

/** A post on a run, with the lowest of its hot strands. */
export interface ProfilePost {
  /** Id of the post in the result. */
  readonly id: string;
  /** Number of the post in the run. */
  readonly post: number;
  readonly positionM: number;
  /** From the energizer along the wire; along the run's line where no metal leads there. */
  readonly distanceM: number;
  readonly strand: string;
  readonly status: StrandStatus;
  readonly volts: number;
}

/** The posts of one run, from its start to its end; empty where the run has no hot strand. */
export interface RunProfile {
  readonly run: string;
  readonly lengthM: number;
  readonly posts: readonly ProfilePost[];
}

/** Volts along every run of a plan in one condition. */
export function runProfiles(plan: ResolvedPlan, condition: ConditionResult, compared: ComparedVolts): RunProfile[] {
  const found = new Map(plan.runs.map((run) => [run.id, [] as (ProfilePost & { known: boolean })[]]));
  for (const { id, strands, positionM } of condition.posts) {
    const ends = new Map<string, typeof strands>();
    for (const strand of strands) {
      // A run that returns to its own junction has both ends there.
      const key = `${strand.post} ${strand.run}`;
      ends.set(key, [...(ends.get(key) ?? []), strand]);
    }
    for (const own of ends.values()) {
      const low = lowestHot(own, compared);
      if (low === null) continue;
      found.get(low.run)?.push({
        id,
        post: low.post,
        positionM: positionM ?? 0,
        distanceM: low.distanceM ?? 0,
        known: low.distanceM !== null,
        strand: low.strand,
        status: low.status,
        volts: compared(low),
      });
    }
  }
  const along = junctionDistances(plan);
  return plan.runs.map((run) => {
    const posts = found.get(run.id)!.sort((a, b) => a.post - b.post);
    const [from, to] = [along.get(run.from)!, along.get(run.to)!];
    return {
      run: run.id,
      lengthM: run.lengthM,
      posts: posts.map(({ known, ...post }, i) => {
        // A junction has no position of its own: it is the run's start or its end.
        const positionM = i > 0 && i === posts.length - 1 ? run.lengthM : post.positionM;
        const distanceM = known ? post.distanceM : Math.min(from + positionM, to + run.lengthM - positionM);
        return { ...post, positionM, distanceM: Number.isFinite(distanceM) ? distanceM : 0 };
      }),
    };
  });
}

/** Shortest way along the lines of runs and links from the energizer to each junction, whatever is open or broken. */
function junctionDistances(plan: ResolvedPlan): Map<string, number> {
  const distance = new Map(plan.junctions.map(({ id }) => [id, Number.POSITIVE_INFINITY]));
  distance.set(plan.energizer.junction, plan.energizer.leadOut?.lengthM ?? 0);
  const ways = [
    ...plan.runs.map(({ from, to, lengthM }) => ({ from, to, lengthM })),
    ...plan.links.map(({ from, to, cable }) => ({ from, to, lengthM: cable.lengthM })),
  ];
  // Rounds over all ways until nothing gets nearer: as many as the farthest junction has ways behind it.
  for (let round = 0, nearer = true; nearer && round <= plan.junctions.length; round++) {
    nearer = false;
    for (const { from, to, lengthM } of ways) {
      for (const [a, b] of [
        [from, to],
        [to, from],
      ] as const) {
        const way = distance.get(a)! + lengthM;
        if (way >= distance.get(b)!) continue;
        distance.set(b, way);
        nearer = true;
      }
    }
  }
  return distance;
}
