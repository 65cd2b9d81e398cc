import { parsePlan } from '@postvolt/core';
import { applyChanges, compare } from '@postvolt/core/studies';
import { fitsPost, standardTables } from '@postvolt/tables';
import { expect, test } from 'vitest';
import { planOf } from './small-plan.js';

test('an own post row made like a T-post takes the insulators of a T-post, in the plan and in compare', async () => {
  const plan = parsePlan(
    planOf((p) => {
      p['tables'] = { posts: { 'my steel': { like: 't-post' } } };
      for (const build of Object.values(p.builds)) {
        build['post'] = 'my steel';
        delete build['insulator'];
      }
    }),
  );
  expect(plan.builds[0]!.strands[0]!.insulator).toBe('t-post clip');
  const { variants } = await compare(plan, {
    variants: [{ name: 'clips', changes: [{ what: 'insulator', row: 't-post clip' }] }],
  });
  expect(variants).toHaveLength(2);
  expect(() => applyChanges(plan, [{ what: 'insulator', row: 'nail-on claw' }], standardTables)).toThrow(
    /an insulator that goes on the posts/,
  );
});

test('an insulator fits the posts that it names and rows made from them; one that names none fits all', () => {
  const clip = { posts: ['t-post'] };
  expect(fitsPost(clip, { id: 't-post' })).toBe(true);
  expect(fitsPost(clip, { id: 'my steel', fitsAs: 't-post' })).toBe(true);
  expect(fitsPost(clip, { id: 'my steel' })).toBe(false);
  expect(fitsPost(clip, { id: 't-post (in a comment)' })).toBe(false);
  expect(fitsPost({ posts: [] }, { id: 'wood' })).toBe(true);
});
