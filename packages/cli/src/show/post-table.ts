import {
  type ConditionResult,
  comparedVolts,
  formatAmps,
  formatLength,
  formatVolts,
  lowestHot,
  type PlanResult,
  type PostResult,
  type StrandResult,
} from '@postvolt/core';
import { thinPosts } from '@postvolt/report/text';
import type { Colours } from '../text/colours.js';
import { type Column, type Row, table } from '../text/table.js';

/** Posts that a table shows before it is thinned. */
const fewPosts = 24;

interface Options {
  /** Every strand of every post, in place of the lowest hot strand of some. */
  readonly all: boolean;
  readonly width: number;
  readonly colours: Colours;
}

/** Volts at the posts of one condition: all of a short fence, a readable part of a long one. */
export function postTable(result: PlanResult, condition: ConditionResult, options: Options): string {
  const compared = comparedVolts(result.target.of);
  const posts = options.all ? condition.posts : thinPosts(condition, compared, fewPosts);
  const lines = posts.flatMap((post) => {
    const low = lowestHot(post.strands, compared);
    if (options.all) return post.strands.map((strand) => ({ post, strand }));
    return low ? [{ post, strand: low }] : [];
  });
  const grounded = lines.some(({ strand }) => strand.voltsToGrounded !== null);
  const columns: Column[] = [
    { head: '' },
    { head: 'Post', gives: true },
    { head: 'Strand', gives: true },
    { head: 'Distance', align: 'right' },
    // A column more leaves less room for the others' heads.
    { head: grounded ? 'Earth' : 'To earth', align: 'right' },
    ...(grounded ? [{ head: 'Ground', align: 'right' } as const] : []),
    { head: grounded ? 'Animal' : 'On animal', align: 'right' },
    { head: grounded ? 'Through' : 'Through it', align: 'right' },
    { head: '' },
  ];
  const { weakest } = condition.verdict;
  const rows = lines.map(({ post, strand }): Row => {
    const isWeakest = post.id === weakest.postId && strand.strand === weakest.strand && strand.run === weakest.run;
    const short = isHot(strand) && compared(strand) < result.target.volts;
    const cells = [
      isWeakest ? '>' : '',
      post.id,
      strand.strand,
      strand.distanceM === null ? '-' : formatLength(strand.distanceM, result.units),
      formatVolts(strand.voltsToEarth),
      ...(grounded ? [strand.voltsToGrounded === null ? '-' : formatVolts(strand.voltsToGrounded)] : []),
      formatVolts(strand.animalVolts),
      formatAmps(strand.animalAmps),
      note(strand, isWeakest, short),
    ];
    return isWeakest ? { cells, style: options.colours.strong } : { cells };
  });
  return `${table(columns, rows, { width: options.width, indent: '  ', colours: options.colours })}\n${grounded ? legend : ''}${footnote(posts, condition)}`;
}

const legend = '  Volts to earth, to the grounded strand and on the animal; amps through it.\n';

const isHot = ({ status }: StrandResult): boolean => status === 'live' || status === 'dead';

function note({ status }: StrandResult, isWeakest: boolean, short: boolean): string {
  if (status === 'dead' || status === 'switched off') return status;
  return isWeakest ? 'weakest' : short ? 'short' : status === 'grounded' ? 'grounded' : '';
}

function footnote(shown: readonly PostResult[], { posts }: ConditionResult): string {
  if (shown.length === posts.length) return `  All ${posts.length} posts.`;
  const count = posts.length.toLocaleString('en-US');
  return `  ${shown.length} of ${count} posts, each with its lowest hot strand; --all shows every one.`;
}
