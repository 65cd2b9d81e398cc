import type { FaultScores } from './score-faults.js';

/** What the readings leave of one fault's place, kind and size. */
export interface PlacePosterior {
  /** By hypothesis. */
  readonly probability: Float64Array;
  /** By post (global number); a span's share goes half to either end. Adds to 1. */
  readonly ofPost: Float64Array;
}

/** Probabilities of places, given that there is one fault that matters. */
export function placePosterior({ hypotheses, best }: FaultScores, postCount: number): PlacePosterior {
  const most = hypotheses[best]!.logWeight;
  const probability = Float64Array.from(hypotheses, ({ logWeight }) => Math.exp(logWeight - most));
  const total = probability.reduce((sum, p) => sum + p, 0);
  const ofPost = new Float64Array(postCount);
  hypotheses.forEach(({ candidate }, h) => {
    probability[h]! /= total;
    for (const post of candidate.posts) ofPost[post]! += probability[h]! / 2;
  });
  return { probability, ofPost };
}

/** The fewest posts that hold a share of the probability, as a mark by post. */
export function likeliestPosts(ofPost: Float64Array, share: number): Uint8Array {
  const order = Array.from(ofPost, (_, post) => post).sort((a, b) => ofPost[b]! - ofPost[a]!);
  const marked = new Uint8Array(ofPost.length);
  let held = 0;
  for (const post of order) {
    if (held >= share) break;
    marked[post] = 1;
    held += ofPost[post]!;
  }
  return marked;
}
