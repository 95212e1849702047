import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Scene } from '../../server/protocol/scene';
import { renderPage } from '../../server/scene/page/page';
import type { Solution } from '../../server/solver/solution';
import { othersOf } from '../scene/lighthouse';
import { sceneOf, solutionsOf } from '../scene/solved';
import { openBrowser, PanelPage, type Theme } from './panel-page';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const THEMES: readonly Theme[] = ['vscode-light', 'vscode-dark', 'vscode-high-contrast', 'vscode-high-contrast-light'];
const WIDE = { width: 1100, height: 900 };
const NARROW = { width: 360, height: 900 };

const TEXT = `passage: Lighthouse study
tempo: 1/4 = 120
meter: 4/4
> Full bows.
1/8 down(D5) A4 slur(D6o E6o F#6o) 1/4 E5<>A5 [II 1-4] 1/8 A5o+E6o |
1/4 C2 rest 1/2 G5 ||
passage: Harbour bells
1/4 A5 B5 C6 D6
`;

let browser: Browser;
let scene: Scene;
let solutions: readonly Solution[];

beforeAll(async () => {
  browser = await openBrowser();
  solutions = solutionsOf(TEXT);
  scene = JSON.parse(JSON.stringify(sceneOf(TEXT))) as Scene;
});
afterAll(() => browser?.close());

async function open(theme: Theme = 'vscode-dark', size = WIDE): Promise<PanelPage> {
  const panel = await PanelPage.open(browser, theme, size, ({ passage, event }) => othersOf(solutions[passage]!, event));
  await panel.send({ type: 'scene', scene, at: { passage: 0, event: 2 } });
  return panel;
}

/** What axe finds against WCAG 2.2 A and AA and its own best practices, as «rule: place». */
async function faults(page: Page): Promise<readonly string[]> {
  // By the debugger: the page's own policy rightly lets no other script in.
  const session = await page.context().newCDPSession(page);
  await session.send('Runtime.evaluate', { expression: AXE });
  const results = await page.evaluate(() => (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run());
  return results.violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')} ${failureSummary ?? ''}`),
  );
}

const selected = (panel: PanelPage) => panel.page.locator('.staff .pw-on').getAttribute('data-event');

describe.each(THEMES)('%s', (theme) => {
  test.each([
    ['wide', WIDE],
    ['narrow', NARROW],
  ])('has nothing that axe objects to, nor anything broken or refused, when %s', async (_, size) => {
    const panel = await open(theme, size);
    for (const summary of await panel.page.locator('summary:visible').all()) await summary.click();
    expect(await faults(panel.page)).toEqual([]);
    expect(panel.broken).toEqual([]);
    // Wide or narrow, nothing sticks out of the panel.
    expect(await panel.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBe(0);
    await panel.page.close();
  });
});

describe('by keyboard alone', () => {
  test('arrow keys step, Shift chooses, Enter goes to the text', async () => {
    const panel = await open();
    await panel.page.locator('.staff').focus();
    await panel.page.keyboard.press('ArrowRight');
    expect(await selected(panel)).toBe('3');
    await panel.page.keyboard.press('Shift+ArrowRight');
    expect(await panel.page.locator('.staff .pw-range').count()).toBe(2);
    await panel.page.keyboard.press('Enter');
    const reveals = (await panel.sent()).filter((message) => message.type === 'reveal');
    expect(reveals.map(({ at, turn, focus }) => [at.event, turn, focus])).toEqual([
      [3, 1, false],
      [4, 2, false],
      [4, 3, true],
    ]);
    await panel.page.close();
  });

  test('the other ways are reached with A, shown on the board while they have the keyboard, chosen with Enter', async () => {
    const panel = await open();
    await panel.page.locator('.board').focus();
    await panel.page.keyboard.press('a');
    expect(await panel.page.locator('.board .pw-other').count()).toBeGreaterThan(0);
    await panel.page.keyboard.press('Enter');
    const pins = (await panel.sent()).filter((message) => message.type === 'pin');
    expect(pins).toEqual([
      { type: 'pin', uri: scene.uri, version: scene.version, at: { passage: 0, event: 2 }, alternative: expect.any(Number) },
    ]);
    await panel.page.keyboard.press('Tab');
    await panel.page.locator('.staff').focus();
    expect(await panel.page.locator('.board .pw-other').count()).toBe(0);
    await panel.page.close();
  });
});

describe('with the editor', () => {
  test('a cursor moves the selection and is not answered; a late echo is ignored', async () => {
    const panel = await open();
    const before = (await panel.sent()).length;
    await panel.send({ type: 'cursor', version: scene.version, at: { passage: 0, event: 5 }, turn: 0 });
    expect(await selected(panel)).toBe('5');
    // The other ways of the new note are asked for; nothing else.
    expect((await panel.sent()).slice(before).map(({ type }) => type)).toEqual(['ask']);
    await panel.page.locator('.staff [data-event="1"]').click();
    await panel.send({ type: 'cursor', version: scene.version, at: { passage: 0, event: 4 }, turn: 0 });
    expect(await selected(panel)).toBe('1');
    await panel.page.close();
  });

  test('a cursor in another passage opens it', async () => {
    const panel = await open();
    await panel.send({ type: 'cursor', version: scene.version, at: { passage: 1, event: 2 }, turn: 0 });
    expect(await panel.page.locator('select').inputValue()).toBe('1');
    expect(await panel.page.locator('.staff [data-event]').count()).toBe(4);
    await panel.page.close();
  });

  test('trouble and waiting are told in words', async () => {
    const panel = await open();
    await panel.send({ type: 'working', text: 'Working out how to play it…', share: 0.4 });
    expect(await panel.page.locator('progress').getAttribute('value')).toBe('0.4');
    await panel.send({ type: 'failed', message: 'Open a .passage file to see how it is played.' });
    expect(await panel.page.locator('.message').textContent()).toContain('Open a .passage file');
    expect(await panel.page.locator('.staff').isVisible()).toBe(false);
    await panel.send({ type: 'scene', scene });
    expect(await panel.page.locator('.staff').isVisible()).toBe(true);
    await panel.page.close();
  });
});

/** Writes down every note that lights up from now on: a busy machine may look away for longer than a note lasts. */
async function listen(panel: PanelPage): Promise<() => Promise<string[]>> {
  await panel.page.evaluate(() => {
    const lit: string[] = [];
    Object.assign(globalThis, { lit });
    new MutationObserver(() => {
      const now = document.querySelector<SVGElement>('.staff .pw-playing')?.dataset.event;
      if (now !== undefined && lit.at(-1) !== now) lit.push(now);
    }).observe(document.querySelector('.staff') as Element, { subtree: true, attributes: true, attributeFilter: ['class'] });
  });
  return () => panel.page.evaluate(() => (globalThis as unknown as { lit: string[] }).lit);
}

describe('sound', () => {
  test('nothing sounds before a click; then the notes light up in turn, and pause keeps the place', async () => {
    const panel = await open();
    await panel.page.evaluate(() => {
      const made: AudioContext[] = [];
      const Real = AudioContext;
      Object.assign(globalThis, {
        made,
        AudioContext: class extends Real {
          constructor() {
            super();
            made.push(this);
          }
        },
      });
    });
    const contexts = () =>
      panel.page.evaluate(() => (globalThis as unknown as { made: AudioContext[] }).made.map(({ state }) => state));
    expect(await contexts()).toEqual([]);
    const lit = await listen(panel);
    await panel.page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect.poll(async () => (await lit()).length, { timeout: 10_000 }).toBeGreaterThanOrEqual(3);
    // A starved page may skip a light, never turn round.
    const order = (await lit()).map(Number);
    expect(order[0]).toBe(2);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(await contexts()).toEqual(['running']);
    await panel.page.getByRole('button', { name: 'Pause' }).click();
    expect(await panel.page.locator('.staff .pw-playing').count()).toBe(0);
    expect(await selected(panel)).toBe((await lit()).at(-1));
    expect(panel.broken).toEqual([]);
    await panel.page.close();
  });

  test('a scene that replaces what plays ends it and moves nothing in the editor', async () => {
    const panel = await open();
    await panel.page.getByRole('button', { name: 'Play', exact: true }).click();
    await panel.page.locator('.staff .pw-playing').waitFor({ timeout: 10_000 });
    const before = (await panel.sent()).length;
    await panel.send({ type: 'scene', scene, at: { passage: 0, event: 1 } });
    await panel.page.getByRole('button', { name: 'Play', exact: true }).waitFor();
    expect(await selected(panel)).toBe('1');
    expect((await panel.sent()).slice(before).map(({ type }) => type)).not.toContain('reveal');
    await panel.page.close();
  });

  test('chosen notes repeat until they are paused', async () => {
    const panel = await open();
    await panel.page.locator('.staff').focus();
    await panel.page.keyboard.press('Shift+ArrowRight');
    await panel.page.keyboard.press('r');
    const lit = await listen(panel);
    await panel.page.keyboard.press(' ');
    await expect
      .poll(async () => (await lit()).filter((event) => event === '2').length, { timeout: 10_000 })
      .toBeGreaterThanOrEqual(3);
    expect(new Set(await lit())).toEqual(new Set(['2', '3']));
    await panel.page.keyboard.press(' ');
    expect(await panel.page.locator('.staff .pw-range').count()).toBe(2);
    await panel.page.close();
  });

  test('what stands between repeat signs lights up twice', async () => {
    const panel = await open();
    const repeated = JSON.parse(JSON.stringify(sceneOf('tempo: 1/4 = 120\n1/4 D5 | E5 F#5 :| G5 ||'))) as Scene;
    await panel.send({ type: 'scene', scene: repeated, at: { passage: 0, event: 1 } });
    const lit = await listen(panel);
    await panel.page.getByRole('button', { name: 'Play', exact: true }).click();
    await panel.page.getByRole('button', { name: 'Pause' }).waitFor();
    await panel.page.getByRole('button', { name: 'Play', exact: true }).waitFor({ timeout: 15_000 });
    // A starved page may skip a light, never show one out of turn.
    const order = await lit();
    const whole = ['1', '2', '0', '1', '2', '3'];
    let turn = 0;
    for (const event of whole) if (event === order[turn]) turn++;
    expect(order.slice(turn)).toEqual([]);
    expect(order.length).toBeGreaterThanOrEqual(4);
    await panel.page.close();
  });

  test('the end of the passage ends it', async () => {
    const panel = await open();
    await panel.page.locator('.staff').focus();
    await panel.page.keyboard.press('End');
    await panel.page.keyboard.press(' ');
    await panel.page.getByRole('button', { name: 'Pause' }).waitFor();
    await panel.page.getByRole('button', { name: 'Play', exact: true }).waitFor({ timeout: 10_000 });
    await panel.page.close();
  });
});

describe('pictures', () => {
  test('both views as SVG and PNG, named after the passage', async () => {
    const panel = await open();
    for (const view of ['board', 'staff'] as const)
      for (const format of ['svg', 'png'] as const) await panel.send({ type: 'export', view, format });
    await expect
      .poll(async () => (await panel.sent()).filter((message) => message.type === 'export').length, { timeout: 10_000 })
      .toBe(4);
    const files = (await panel.sent()).flatMap((message) => (message.type === 'export' ? [message] : []));
    expect(files.map(({ name }) => name).sort()).toEqual([
      'lighthouse-study-fingerboard.png',
      'lighthouse-study-fingerboard.svg',
      'lighthouse-study-staff.png',
      'lighthouse-study-staff.svg',
    ]);
    for (const { format, data } of files) {
      if (format === 'svg') expect(data).toMatch(/^<\?xml.*<\/svg>\n$/s);
      // The eight bytes that every PNG begins with (ISO/IEC 15948).
      else expect([...Buffer.from(data, 'base64').subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    }
    await panel.page.close();
  });
});

describe('the page of a terminal', () => {
  test.each(['light', 'dark'] as const)('has nothing that axe objects to in a %s system, and steps', async (colorScheme) => {
    const page = await browser.newPage({ viewport: WIDE, colorScheme });
    const broken: string[] = [];
    page.on('pageerror', (error) => broken.push(error.message));
    page.on('request', (request) => request.url().startsWith('http') && broken.push(`loads ${request.url()}`));
    await page.setContent(renderPage(scene));
    expect(await faults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Show note 3 on the board' }).first().click();
    expect(await page.locator('section').first().locator('.pw-layer:not([visibility=hidden])').getAttribute('data-event')).toBe(
      '2',
    );
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('section').first().locator('tr[aria-current]').getAttribute('data-event')).toBe('3');
    expect(broken).toEqual([]);
    await page.close();
  });
});
