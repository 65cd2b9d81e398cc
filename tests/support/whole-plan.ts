import {
  type ConditionResult,
  type PlanInput,
  type PostResult,
  parsePlan,
  type StrandResult,
  solvePlan,
} from '@postvolt/core';

/** Solves a plan as a person writes it; the only condition, or the one named. */
export function solveInput(input: PlanInput, condition?: string): ConditionResult {
  const plan = parsePlan(input);
  return solvePlan(plan, { conditions: [condition ?? plan.conditions[0]!.id] }).conditions[0]!;
}

/** One run, `fence`, from `home` to `end`, with its posts in order from the energizer on. */
export const straight = (
  length: string,
  rest: Pick<PlanInput, 'energizer'> & Partial<PlanInput> & { build: PlanInput['builds'][string] },
): PlanInput => {
  const { build, ...others } = rest;
  return {
    formatVersion: 1,
    units: 'metric',
    soil: 'loam',
    junctions: ['home', 'end'],
    builds: { build },
    runs: { fence: { from: 'home', to: 'end', length } },
    ...others,
  };
};

/** The strand of this name, or the first, at every post of the run `fence`, from post 0 on. */
export function alongFence({ posts }: ConditionResult, strand?: string): StrandResult[] {
  const at = (post: PostResult) => post.strands.find((s) => strand === undefined || s.strand === strand)!;
  return posts.map(at).sort((a, b) => a.post - b.post);
}
