import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { renderReport } from '@postvolt/report';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { isLong } from '../support/length.js';
import { drawAll } from './draw-all.js';
import { demoFarm, everything, hostilePlan, onePaddock, placed } from './plans.js';

const tools = new URL('../../packages/tools/chromium.mjs', import.meta.url).href;
const { findChromium } = (await import(tools)) as { findChromium: () => string | null };
const executablePath = findChromium();
if (executablePath === null)
  process.stderr.write(
    '\n*** NO CHROMIUM: the browser tests of the report are SKIPPED. Install it, or set POSTVOLT_CHROMIUM. ***\n\n',
  );

const all = { onePaddock, demoFarm, everything, placed, hostilePlan };
const fences: Partial<typeof all> = isLong ? all : { demoFarm, hostilePlan };

describe.skipIf(executablePath === null)('a report in a browser', () => {
  let browser: Browser;
  let folder: string;
  /** For drawings without a page of their own. */
  let blank: Page;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'postvolt-report-'));
    for (const [name, fence] of Object.entries(fences))
      writeFileSync(join(folder, `${name}.html`), renderReport(fence));
    browser = await chromium.launch({
      executablePath: executablePath!,
      args: ['--no-sandbox', '--disable-gpu', '--disable-quic'],
    });
    blank = await browser.newPage();
  });

  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  interface Opened {
    readonly page: Page;
    /** Addresses asked for, beside the page itself, and errors. */
    readonly asked: string[];
  }

  async function open(name: string, options: Parameters<Browser['newPage']>[0] = {}): Promise<Opened> {
    const page = await browser.newPage(options);
    const address = pathToFileURL(join(folder, `${name}.html`)).href;
    const asked: string[] = [];
    page.on('request', (request) => {
      if (request.url() !== address) asked.push(request.url());
    });
    page.on('pageerror', (error) => asked.push(String(error)));
    page.on('console', (message) => asked.push(message.text()));
    await page.goto(address);
    return { page, asked };
  }

  test.each(Object.keys(fences))('%s asks for nothing, says nothing, and runs no text of a plan', async (name) => {
    const { page, asked } = await open(name);
    expect(asked).toEqual([]);
    expect(await page.evaluate('window.broken')).toBeUndefined();
    expect(await page.locator('script, iframe, img, link').count()).toBe(1);
    await page.close();
  });

  test.each(Object.keys(fences))('%s has no sideways scroll, from a small phone to a wide screen', async (name) => {
    const { page } = await open(name);
    for (const width of [320, 360, 390, 600, 641, 768, 1280]) {
      await page.setViewportSize({ width, height: 800 });
      expect({ width, scroll: await page.evaluate(() => document.documentElement.scrollWidth) }).toEqual({
        width,
        scroll: width,
      });
    }
    await page.close();
  });

  const schemes = Object.keys(fences).flatMap((name) =>
    (['light', 'dark'] as const).map((scheme) => [name, scheme] as const),
  );
  // axe-core's rules for WCAG 2.2 A and AA and its best practices.
  test.each(schemes)('%s passes an accessibility checker, %s', async (name, colorScheme) => {
    for (const width of [360, 1000]) {
      const { page } = await open(name, { colorScheme, viewport: { width, height: 800 }, bypassCSP: true });
      await page.addScriptTag({ path: createRequire(import.meta.url).resolve('axe-core/axe.min.js') });
      const found = await page.evaluate(async () => {
        const { axe } = window as unknown as {
          axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
        };
        const { violations } = await axe.run();
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 200)).join(' | ')}`);
      });
      expect(found).toEqual([]);
      await page.close();
    }
  });

  test('reads a post out by the arrow keys and by the pointer', async () => {
    const { page } = await open('demoFarm', { viewport: { width: 1000, height: 900 } });
    const figure = page.locator('#figure-volts .wide svg');
    const read = page.locator('#figure-volts .wide .read');
    await figure.focus();
    await page.keyboard.press('Home');
    const first = await read.textContent();
    expect(first).toMatch(/^Post \S.* from the energizer: dry summer [\d.]+ kV; wet autumn [\d.]+ kV/);
    await page.keyboard.press('ArrowRight');
    expect(await read.textContent()).not.toBe(first);
    await page.keyboard.press('End');
    const box = (await figure.boundingBox())!;
    await page.mouse.move(box.x + box.width * 0.3, box.y + box.height * 0.5);
    expect(await read.textContent()).toMatch(/^Post /);
    expect(await page.locator('#figure-volts .wide .hit.on').count()).toBe(1);
    const map = page.locator('#figure-fence .wide svg');
    await map.focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('#figure-fence .wide .read').textContent()).toMatch(
      /^Post .*, wet autumn: [\d.]+ kV on (top|low)/,
    );
    await page.close();
  });

  test('stands without script: numbers in titles and tables, no place for a read-out', async () => {
    const { page } = await open('demoFarm', { javaScriptEnabled: false });
    expect(await page.locator('.read').count()).toBe(0);
    expect(await page.locator('#figure-volts .wide .hit title').first().textContent()).toMatch(/^Post /);
    await page.close();
  });

  test('prints light, wide figures only, nothing cut at the right edge', async () => {
    const { page } = await open('demoFarm', { colorScheme: 'dark', viewport: { width: 680, height: 900 } });
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe('rgb(252, 251, 247)');
    expect(await page.locator('.narrow:visible').count()).toBe(0);
    expect(await page.locator('.read:visible').count()).toBe(0);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(680);
    expect((await page.pdf({ format: 'A4' })).length).toBeGreaterThan(10_000);
    await page.close();
  });

  const drawings = Object.entries(fences).flatMap(([name, fence]) =>
    Object.keys(drawAll(fence)).map((figure) => [name, figure] as const),
  );
  test.each(drawings)('%s, %s: no text runs out of its figure, and none over another', async (name, figure) => {
    const draw = drawAll(fences[name as keyof typeof fences]!)[figure]!;
    for (const width of [760, 344]) {
      await blank.setContent(draw({ width }));
      const { outside, over } = await blank.evaluate(() => {
        const frame = document.querySelector('svg')!.getBoundingClientRect();
        const texts = [...document.querySelectorAll('svg text')].map((text) => ({
          words: text.lastChild?.textContent ?? '',
          box: text.getBoundingClientRect(),
        }));
        const outside = texts.filter(
          ({ box }) =>
            box.left < frame.left - 1 ||
            box.right > frame.right + 1 ||
            box.top < frame.top - 1 ||
            box.bottom > frame.bottom + 1,
        );
        // Line boxes are higher than letters: what overlaps by more than a third of a line is unreadable.
        const over = texts.flatMap((a, i) =>
          texts
            .slice(0, i)
            .filter(
              (b) =>
                Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > 2 &&
                Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 5,
            )
            .map((b) => `${a.words} / ${b.words}`),
        );
        return { outside: outside.map(({ words }) => words), over };
      });
      expect({ width, outside, over }).toEqual({ width, outside: [], over: [] });
    }
  });
});
