import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { filesBelow, root } from '../workspace/files.js';

/** A fenced block of a page. */
export interface Block {
  readonly language: string;
  readonly text: string;
  /** Line of its first line in the page, counted from 1. */
  readonly line: number;
}

/** A page with blocks. */
export interface Page {
  readonly file: string;
  readonly blocks: readonly Block[];
}

function blocksOf(text: string): Block[] {
  const blocks: Block[] = [];
  let open: { language: string; line: number; lines: string[] } | null = null;
  text.split(/\r?\n/).forEach((line, i) => {
    const fence = /^\s*```(\S*)\s*$/.exec(line);
    if (!fence) open?.lines.push(line);
    else if (open === null) open = { language: fence[1]!, line: i + 2, lines: [] };
    else {
      blocks.push({ language: open.language, line: open.line, text: `${open.lines.join('\n')}\n` });
      open = null;
    }
  });
  if (open !== null) throw new Error('a block without an end');
  return blocks;
}

/** README, contributor guide, guides, and the packages' own READMEs. */
export const pages: readonly Page[] = [
  ...['README.md', 'DEVELOPERS.md'],
  ...filesBelow('docs').filter((file) => file.endsWith('.md')),
  ...filesBelow('packages').filter((file) => /^packages\/[^/]+\/README\.md$/.test(file)),
]
  .map((file) => ({ file, blocks: blocksOf(readFileSync(join(root, file), 'utf8')) }))
  .filter(({ blocks }) => blocks.length > 0);
