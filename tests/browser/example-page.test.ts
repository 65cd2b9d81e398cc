// The page of examples/browser, built as its config says and driven in a real browser from the disk, without a server.
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { isLong } from '../support/length.js';

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));
if (!existsSync(at('packages/report/dist/index.js'))) throw new Error('build first: npm run build');

const { findChromium } = (await import(new URL('../../packages/tools/chromium.mjs', import.meta.url).href)) as {
  findChromium: () => string | null;
};
const executablePath = findChromium();
if (executablePath === null)
  process.stderr.write(
    '\n*** NO CHROMIUM: the tests of the example page are SKIPPED. Install it, or set POSTVOLT_CHROMIUM. ***\n\n',
  );

test.runIf(isLong)('a browser is there wherever everything is checked', () => {
  expect(executablePath).not.toBeNull();
});

const quietBrowser = [
  ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
  ...['--disable-component-update', '--disable-sync'],
];

describe.skipIf(executablePath === null || !isLong)('the example page', () => {
  let browser: Browser;
  let folder: string;
  let page: Page;
  /** Addresses asked for beside the page itself, whatever the console said, and errors. */
  let heard: string[];

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'postvolt-browser-'));
    const { build } = await import('vite');
    await build({
      configFile: at('examples/browser/vite.config.mjs'),
      root: at('examples/browser'),
      build: { outDir: folder },
    });
    browser = await chromium.launch({ executablePath: executablePath!, args: quietBrowser });
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  beforeEach(async () => {
    const address = pathToFileURL(join(folder, 'index.html')).href;
    page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    heard = [];
    page.on('request', (request) => {
      if (request.url() !== address && !request.url().startsWith('data:')) heard.push(request.url());
    });
    page.on('pageerror', (error) => heard.push(String(error)));
    page.on('console', (message) => heard.push(message.text()));
    await page.goto(address);
    await page.waitForSelector('#budget svg');
  });
  afterEach(async () => {
    expect(heard).toEqual([]);
    await page.close();
  });

  const plan = () => page.inputValue('#plan');
  const picture = (id: string) => page.innerHTML(`#${id} .drawing`);
  const write = async (from: string, to: string) => {
    const text = await plan();
    expect(text).toContain(from);
    await page.fill('#plan', text.replace(from, to));
  };

  test('is one file, and asks for nothing else', () => {
    expect(readdirSync(folder)).toEqual(['index.html']);
  });

  test('shows the answer and four figures at once', async () => {
    expect(await page.textContent('#sentence')).toMatch(/^The fence holds 3 kV for cattle/);
    expect(await page.locator('figure svg').count()).toBe(4);
  });

  test('draws anew when a change is typed', async () => {
    const before = await picture('volts');
    const text = await plan();
    const end = text.indexOf('1320 ft') + '1320 ft'.length;
    await page.focus('#plan');
    await page.evaluate((n) => (document.querySelector('#plan') as HTMLTextAreaElement).setSelectionRange(n, n), end);
    for (let i = 0; i < 2; i++) await page.keyboard.press('Backspace');
    await page.keyboard.type('mi');
    // 1320 mi is more than a run may have: an error, and the picture of before.
    await page.waitForFunction(() => document.querySelector('#plan')?.getAttribute('aria-invalid') === 'true');
    expect(await picture('volts')).toBe(before);
    for (let i = 0; i < '1320 mi'.length; i++) await page.keyboard.press('Backspace');
    await page.keyboard.type('3 mi');
    await page.waitForFunction(() => document.querySelector('#plan')?.getAttribute('aria-invalid') === 'false');
    expect(await picture('volts')).not.toBe(before);
  });

  test('says what is wrong and keeps the last good picture', async () => {
    const before = await Promise.all(['volts', 'map', 'leaks', 'budget'].map(picture));
    expect(await page.isVisible('#stale')).toBe(false);
    await write('12.5 ga', '12.5 gauge wire');
    await page.waitForSelector('#issues li.error');
    expect(await page.textContent('#issues li.error')).toMatch(
      /line 16: .*"12\.5 gauge wire".*Did you mean "12\.5 ga"/,
    );
    expect(await page.isVisible('#stale')).toBe(true);
    expect(await Promise.all(['volts', 'map', 'leaks', 'budget'].map(picture))).toEqual(before);
    await page.click('#issues li.error button');
    const selected = await page.evaluate(() => {
      const box = document.querySelector('#plan') as HTMLTextAreaElement;
      return box.value.slice(box.selectionStart, box.selectionEnd);
    });
    expect(selected).toBe('    wire: 12.5 gauge wire');
    await write('12.5 gauge wire', '14 ga');
    await page.waitForSelector('#issues li.error', { state: 'detached' });
    expect(await page.isVisible('#stale')).toBe(false);
    expect(await picture('volts')).not.toBe(before[0]);
  });

  test.each(['', '{', '[', 'a: b: c', '\u0000', '- - - -', '<script>window.broken = 1</script>'])(
    'keeps its picture whatever is written: %j',
    async (text) => {
      const before = await picture('map');
      await page.fill('#plan', text);
      await page.waitForSelector('#issues li.error');
      expect(await picture('map')).toBe(before);
    },
  );

  test('runs no text of a plan', async () => {
    await write('title: One paddock', 'title: "<img src=x onerror=window.broken=1>"');
    await write('lane:', '"<svg onload=window.broken=1>":');
    await page.waitForFunction(() => document.querySelector('#map')?.textContent?.includes('<svg onload'));
    expect(await page.evaluate('window.broken')).toBeUndefined();
  });

  test('follows the condition that is chosen', async () => {
    const before = await picture('leaks');
    await page.selectOption('#condition', { label: 'dry day' });
    expect(await picture('leaks')).not.toBe(before);
  });

  test.each([320, 390, 768, 1280])('has no sideways scroll at %i pixels', async (width) => {
    await page.setViewportSize({ width, height: 800 });
    await page.waitForFunction((w) => (document.querySelector('#volts svg')?.clientWidth ?? 0) <= w, width);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });
});
