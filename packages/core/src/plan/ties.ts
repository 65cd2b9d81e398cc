import type { ResolvedBuild, ResolvedStrand } from './resolved.js';

/** Whether a strand of a build joins the junction at that end of its run. */
export const isTied = (build: ResolvedBuild, strand: ResolvedStrand, end: 'from' | 'to'): boolean =>
  strand.role === 'grounded' ||
  build.ties === 'both' ||
  build.ties === end ||
  build.strands.find((s) => s.role === 'hot') === strand;
