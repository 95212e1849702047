import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import bundle from '../../client/l10n/bundle.l10n.json';
import { othersOf } from '../scene/lighthouse';
import { sceneOf, solutionsOf } from '../scene/solved';
import { openBrowser, PanelPage } from './panel-page';

const TEXT = `tempo: 1/4 = 120
meter: 4/4
1/8 down(D5) A4 slur(D6o E6o F#6o) 1/4 E5<>A5 [II 1-4] 1/8 A5o+E6o ||
`;
const words = Object.fromEntries(Object.keys(bundle).map((message) => [message, `⟦${message}⟧`]));

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

/** What the panel itself shows and names; what the server words it shows as it came. */
it('the preview speaks what the page was handed, every word of its own', async () => {
  const scene = JSON.parse(JSON.stringify(sceneOf(TEXT)));
  const solutions = solutionsOf(TEXT);
  const panel = await PanelPage.open(
    browser,
    'vscode-light',
    { width: 1100, height: 900 },
    ({ passage, event }) => othersOf(solutions[passage]!, event),
    words,
  );
  await panel.send({ type: 'scene', scene, at: { passage: 0, event: 2 } });
  expect(await panel.page.locator('button.play').textContent()).toBe('⟦Play⟧');
  const told = await panel.page.evaluate(() =>
    [...document.querySelectorAll('button, summary, h1, h2, label, dd, kbd, .legend li, [aria-label]')].flatMap((node) => [
      node.closest('.ways, .staff g, .board g, ol') ? '' : (node.getAttribute('aria-label') ?? node.textContent ?? ''),
    ]),
  );
  expect(told.length).toBeGreaterThan(40);
  const plain = told.map((text) => text.replace(/⟦[^⟦⟧]*⟧/g, '').replace(/⟦[^⟦⟧]*⟧/g, ''));
  expect(plain.filter((left) => /[A-Za-z]{3,}/.test(left))).toEqual([]);
  expect(panel.broken).toEqual([]);
  await panel.page.close();
});
