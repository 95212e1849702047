import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { page as previewPage } from '../../client/preview/page';
import type { MeasureHostMessage, MeasurePageMessage } from '../../client/webview/measure/messages';
import { openBrowser } from './panel-page';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const ORIGIN = 'https://panel.test';
const PLAYER: Extract<MeasureHostMessage, { type: 'player' }> = {
  type: 'player',
  file: 'ines.player',
  player: {
    instrument: 'violin',
    length: 328,
    pairs: ['1-2', '1-4'],
    hand: 'medium',
    reaches: {},
    least: 10,
    most: 300,
    nested: [],
  },
};

let browser: Browser;
let script: string;

beforeAll(async () => {
  browser = await openBrowser();
  const made = await build({ entryPoints: ['client/webview/measure/main.ts'], bundle: true, write: false, format: 'iife' });
  script = made.outputFiles[0]!.text;
});
afterAll(() => browser?.close());

/** The built page under the extension's own content policy, with a host that listens. */
async function open(broken: string[], written: Partial<typeof PLAYER.player> = {}): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 420, height: 900 } });
  page.on('pageerror', (error) => broken.push(error.message));
  page.on('console', (line) => line.type() === 'error' && broken.push(line.text()));
  const html = previewPage({ nonce: 'harbour', source: ORIGIN, script: `${ORIGIN}/measure.js`, language: 'en' });
  await page.route(`${ORIGIN}/**`, (route) =>
    route.request().url().endsWith('.js')
      ? route.fulfill({ contentType: 'text/javascript', body: script })
      : route.fulfill({ contentType: 'text/html', body: html }),
  );
  await page.addInitScript(() => {
    const sent: unknown[] = [];
    const postMessage = (message: unknown) => void sent.push(message);
    Object.assign(globalThis, {
      sent,
      acquireVsCodeApi: () => ({ postMessage, getState: () => undefined, setState: () => undefined }),
    });
  });
  await page.goto(`${ORIGIN}/`);
  await page.evaluate((message) => postMessage(message, '*'), {
    ...PLAYER,
    player: { ...PLAYER.player, ...written },
  });
  await page.locator('h2').waitFor();
  return page;
}

const sent = (page: Page) => page.evaluate(() => (globalThis as unknown as { sent: MeasurePageMessage[] }).sent);
const news = (page: Page) => page.locator('[role=status]').textContent();

async function faults(page: Page): Promise<readonly string[]> {
  const session = await page.context().newCDPSession(page);
  await session.send('Runtime.evaluate', { expression: AXE });
  const results = await page.evaluate(() => (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run());
  return results.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
}

test('a hand is measured by keyboard alone, with a ruler and by notes, and written', async () => {
  const broken: string[] = [];
  const page = await open(broken);
  expect(await page.locator('.caution').textContent()).toMatch(/Pain.*means stop.*teacher or a clinician/);
  expect(await page.locator('h2').textContent()).toBe('1 of 2: first finger and second finger');
  expect(await faults(page)).toEqual([]);

  await page.locator('#mm').focus();
  await page.keyboard.type('5');
  await page.keyboard.press('Enter');
  expect(await page.locator('#mm-wrong').textContent()).toContain('from 10 to 300 mm');
  expect(await page.locator('#mm').getAttribute('aria-invalid')).toBe('true');
  await page.locator('#mm').fill('48');
  await page.keyboard.press('Enter');

  expect(await page.locator('h2').textContent()).toBe('2 of 2: first finger and fourth finger');
  await page.locator('#higher').focus();
  await page.keyboard.type('9');
  // 328 mm, two to nine semitones: 97 mm, derived.
  expect(await news(page)).toContain('97 mm');
  await page.keyboard.press('Enter');

  expect(await page.locator('h2').textContent()).toBe('What was measured');
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H2');
  expect(await faults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Write into ines.player' }).focus();
  await page.keyboard.press('Enter');
  expect((await sent(page)).at(-1)).toEqual({ type: 'write', hand: '1-2 48, 1-4 97' });
  await page.evaluate(() => postMessage({ type: 'written', file: 'ines.player' }, '*'));
  await expect.poll(() => news(page)).toBe('Written into ines.player.');
  expect(broken).toEqual([]);
  await page.close();
});

test('what can’t be right is told at its field, and Back waits for a pair before', async () => {
  const page = await open([]);
  const back = page.getByRole('button', { name: 'Back' });
  expect(await back.isDisabled()).toBe(true);
  expect(await back.evaluate((each) => Number(getComputedStyle(each).opacity))).toBeLessThan(0.6);
  await page.locator('#higher').fill('1');
  await page.locator('#higher').press('Tab');
  expect(await page.locator('#notes-wrong').textContent()).toBe(
    'The higher finger lies above the lower one: count more than 2 semitones.',
  );
  await page.locator('#higher').fill('30');
  await page.locator('#higher').press('Tab');
  expect(await page.locator('#notes-wrong').textContent()).toMatch(/more than an octave/);
  expect(await faults(page)).toEqual([]);
  await page.locator('#higher').fill('4');
  expect(await page.locator('#notes-wrong').textContent()).toBe('');
  expect(await page.locator('#mm').inputValue()).not.toBe('');
  await page.getByRole('button', { name: 'Next' }).click();
  expect(await back.isDisabled()).toBe(false);
  await page.close();
});

test('nothing measured is nothing written', async () => {
  const page = await open([]);
  for (let pair = 0; pair < 2; pair++) await page.getByRole('button', { name: 'Skip this pair' }).click();
  expect(await page.getByRole('button', { name: 'Write into ines.player' }).isDisabled()).toBe(true);
  await page.close();
});

test('what the file says already is filled in, and skipping a pair keeps it', async () => {
  const page = await open([], { hand: '1-2 50, 1-4 102', reaches: { '1-2': 50, '1-4': 102 } });
  expect(await page.locator('#mm').inputValue()).toBe('50');
  await page.locator('#mm').fill('52');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Keep 102 mm' }).click();
  await page.getByRole('button', { name: 'Write into ines.player' }).click();
  expect((await sent(page)).at(-1)).toEqual({ type: 'write', hand: '1-2 52, 1-4 102' });
  await page.close();
});
