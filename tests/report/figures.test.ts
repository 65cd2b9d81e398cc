import { comparedVolts, lowestHot } from '@postvolt/core';
import { fenceMap, toSvg, voltsAlong } from '@postvolt/report';
import { describe, expect, test } from 'vitest';
import { drawAll } from './draw-all.js';
import { all, type Node, parseXml } from './parse-xml.js';
import { demoFarm, everything, hostilePlan, long, onePaddock, placed, type Solved, straight } from './plans.js';

const plans: readonly (readonly [string, Solved])[] = [
  ['one paddock', onePaddock],
  ['the demo farm', demoFarm],
  ['every feature', everything],
  ['coordinates', placed],
  ['five thousand posts', long],
  ['hostile names', hostilePlan],
];

const textOf = (node: Node): string => node.text + node.children.map(textOf).join('');

describe.each(plans)('figures of %s', (_name, plan) => {
  const cases = Object.entries(drawAll(plan)).flatMap(([name, draw]) =>
    [760, 344].flatMap((width) => [true, false].map((standalone) => [name, width, standalone, draw] as const)),
  );

  test.each(cases)(
    '%s, %i wide, standalone %s: well formed, named in words, self-contained',
    (_f, width, standalone, draw) => {
      const svg = draw({ width, standalone, id: 'here' });
      const root = parseXml(svg);
      const nodes = all(root);
      expect(root.name).toBe('svg');
      expect(root.attributes['xmlns']).toBe('http://www.w3.org/2000/svg');
      const [labelled, described] = root.attributes['aria-labelledby']!.split(' ');
      for (const id of [labelled, described]) {
        const words = nodes.filter(({ attributes }) => attributes['id'] === id);
        expect(words.length).toBe(1);
        expect(textOf(words[0]!).trim().length).toBeGreaterThan(5);
      }
      expect(root.attributes['role']).toBe('img');
      const ids = nodes.flatMap(({ attributes }) => attributes['id'] ?? []);
      expect(new Set(ids).size).toBe(ids.length);
      for (const id of ids) expect(id).toMatch(/^here-/);
      expect(nodes.map(({ name }) => name)).not.toContain('script');
      for (const { attributes } of nodes) {
        expect(Object.keys(attributes).filter((key) => /^on|href/.test(key))).toEqual([]);
        for (const value of Object.values(attributes)) expect(value).not.toMatch(/\b(NaN|undefined|null|Infinity)\b/);
      }
      expect(nodes.some(({ name }) => name === 'style')).toBe(standalone);
      const [, , w, h] = root.attributes['viewBox']!.split(' ').map(Number);
      expect([w, h]).toEqual([Number(root.attributes['width']), Number(root.attributes['height'])]);
      expect(w).toBe(width);
    },
  );
});

describe('volts along the fence', () => {
  const pathsOf = (svg: string) => all(parseXml(svg)).filter(({ name }) => name === 'path');

  test('of thousands of posts draws few points and loses no extreme', () => {
    const compared = comparedVolts(long.result.target.of);
    const svg = voltsAlong(long);
    expect(svg.length).toBeLessThan(300_000);
    // Each condition's strong line ends in its weakest post: the mark stands on the lowest point of the line.
    const volts = long.result.conditions.map(({ posts }) =>
      posts.map(({ strands }) => compared(lowestHot(strands, compared)!)),
    );
    const strong = pathsOf(svg).filter(({ attributes }) => attributes['stroke-width'] === '2.4');
    expect(strong.length).toBe(volts.length);
    const ys = strong.map(({ attributes }) =>
      [...attributes['d']!.matchAll(/[ML][\d.]+,([\d.]+)/g)].map(([, y]) => Number(y)),
    );
    const [first, second] = [volts[0]!, volts[1]!];
    // Both lines share a scale that is linear: heights go as volts.
    const perVolt = (Math.max(...ys[1]!) - Math.min(...ys[1]!)) / (Math.max(...second) - Math.min(...second));
    const drawn = Math.max(...ys[1]!) - Math.min(...ys[0]!);
    // Half a pixel: each of the four heights is written to a tenth.
    expect(Math.abs(drawn - (Math.max(...first) - Math.min(...second)) * perVolt)).toBeLessThan(0.5);
    for (const line of ys) expect(line.length).toBeLessThan(4 * 760);
  });

  test('draws one kink where one post is low', () => {
    const { plan, result } = long;
    const [condition, ...others] = result.conditions;
    const posts = condition!.posts.map((post) =>
      post.id === 'fence/2500' ? { ...post, strands: post.strands.map((s) => ({ ...s, voltsToEarth: 1 })) } : post,
    );
    const lines = (svg: string) => pathsOf(svg).filter(({ attributes }) => attributes['stroke-width'] === '2.4');
    const heights = (svg: string) =>
      [...lines(svg)[0]!.attributes['d']!.matchAll(/,([\d.]+)/g)].map(([, y]) => Number(y));
    const before = heights(voltsAlong({ plan, result }));
    const after = heights(
      voltsAlong({ plan, result: { ...result, conditions: [{ ...condition!, posts }, ...others] } }),
    );
    // One volt lies on the base line.
    const base = Math.max(...after);
    expect(after.filter((y) => y > base - 0.5).length).toBe(1);
    expect(before.filter((y) => y > base - 0.5).length).toBe(0);
  });

  test('only the conditions asked for, and the band of one', () => {
    const only = parseXml(voltsAlong({ ...onePaddock, conditions: [onePaddock.result.conditions[0]!.id] }));
    const names = onePaddock.result.conditions.map(({ name }) => name);
    expect(textOf(only)).toContain(names[0]);
    expect(textOf(only)).not.toContain(`${names[1]} starts`);
  });

  test('every line has its own dash or mark beside its colour', () => {
    const marks = new Set(
      pathsOf(voltsAlong(demoFarm))
        .filter(({ attributes }) => /^f-line\d/.test(attributes['class'] ?? ''))
        .map(({ attributes }) => `${attributes['class']!.split(' ')[0]} ${attributes['d']}`),
    );
    const shapes = new Set(
      [...marks].map((mark) =>
        mark
          .split(' ')
          .slice(1)
          .join(' ')
          .replace(/[\d.,-]+/g, ''),
      ),
    );
    expect(shapes.size).toBeGreaterThanOrEqual(3);
  });

  test('faults of the plan are marked and named', () => {
    const titles = all(parseXml(voltsAlong(placed))).filter(({ name }) => name === 'title');
    expect(titles.map(({ text }) => text)).toContainEqual(
      expect.stringMatching(/^Fault .*branch on wire at creek\/10 \(wet\)$/),
    );
  });
});

describe('the fence as a plan', () => {
  test('with coordinates has a north arrow and a scale bar; without, says that it is no map', () => {
    expect(fenceMap(placed)).toContain('>N</text>');
    expect(fenceMap(placed)).toMatch(/>\d+ m<\/text>/);
    expect(fenceMap(straight)).toContain('Not a map');
    expect(fenceMap(straight)).not.toContain('>N</text>');
  });

  test('reads out posts, the weakest among them, and marks gates, switches and faults', () => {
    const titles = all(parseXml(fenceMap({ ...everything, condition: 'rain' })))
      .filter(({ name }) => name === 'title')
      .map(({ text }) => text);
    const { weakest } = everything.result.conditions.find(({ id }) => id === 'rain')!.verdict;
    expect(titles.filter((text) => text.startsWith(`Post ${weakest.postId},`)).length).toBe(1);
    for (const word of [/^Gate /, /^Switch .*, closed$/, /^Fault .*: broken wire$/])
      expect(titles.some((text) => word.test(text))).toBe(true);
    const frost = fenceMap({ ...everything, condition: 'frost' });
    expect(frost).toMatch(/Switch [^<]*, open</);
    expect(frost).not.toContain('wire on post');
  });

  test('refuses a condition that there is not', () => {
    expect(() => fenceMap({ ...straight, condition: 'wett' })).toThrow(/found "wett", expected one of "dry", "wet"/);
    expect(() => toSvg('map' as 'fence', straight)).toThrow(/found "map", expected one of volts, fence, leaks, budget/);
  });
});
