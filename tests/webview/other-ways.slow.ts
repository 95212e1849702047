import { expect, test } from 'vitest';
import type { Scene } from '../../server/protocol/scene';
import { othersOf } from '../scene/lighthouse';
import { sceneOf, solutionsOf } from '../scene/solved';
import { openBrowser, PanelPage } from './panel-page';

const TEXT = 'tempo: 1/4 = 72\n1/4 D6o E6o F#6o G6o |\n';

test('Tab goes through the other ways once and on, though the board changes its size for a far one', async () => {
  const browser = await openBrowser();
  const solutions = solutionsOf(TEXT);
  const scene = JSON.parse(JSON.stringify(sceneOf(TEXT))) as Scene;
  const ways = ({ passage, event }: { passage: number; event: number }) => othersOf(solutions[passage]!, event);
  const panel = await PanelPage.open(browser, 'vscode-dark', { width: 540, height: 860 }, ways);
  await panel.send({ type: 'scene', scene });
  await panel.page.locator('.board').focus();
  await panel.page.keyboard.press('a');
  const offered = await panel.page.locator('.choice').allTextContents();
  const focused = () => panel.page.evaluate(() => document.activeElement?.closest('.choice')?.textContent);
  const passed: string[] = [];
  for (let way = await focused(); way && passed.length <= offered.length; way = await focused()) {
    passed.push(way);
    await panel.page.keyboard.press('Tab');
    // What the board's new size sets off comes a frame later.
    await panel.page.waitForTimeout(100);
  }
  expect(offered.length).toBeGreaterThan(3);
  expect(passed).toEqual(offered);
  await browser.close();
});
