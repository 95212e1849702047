import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Scene } from '../../server/protocol/scene';
import { sceneOf } from '../scene/solved';
import { openBrowser, PanelPage } from './panel-page';

const WIDE = { width: 1100, height: 900 };

let browser: Browser;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const selected = (panel: PanelPage) => panel.page.locator('.staff .pw-on').getAttribute('data-event');

function plain(text: string): Scene {
  return JSON.parse(JSON.stringify(sceneOf(text))) as Scene;
}

describe('a passage of 200 bars', () => {
  const bar = 'D5 E5 F#5 G5 A5 B5 C#6 D6 |\n';
  const long = plain(`tempo: 1/4 = 72\nmeter: 4/4\n1/8 ${bar.repeat(200)}`);

  test('scrolls to its last bar with only what is in sight drawn, the fingerboard in view, and a press on the path of the hand goes there', async () => {
    for (const size of [WIDE, { width: 560, height: 780 }]) {
      const panel = await PanelPage.open(browser, 'vscode-light', size, () => []);
      await panel.send({ type: 'scene', scene: long, at: { passage: 0, event: 0 } });
      await panel.page.locator('.staff [data-event="0"]').waitFor();
      await panel.page.locator('.staff').evaluate((staff) => staff.scrollTo(0, staff.scrollHeight));
      await panel.page.locator('.staff [data-event="1599"]').waitFor();
      expect(await panel.page.locator('.staff [data-event]').count()).toBeLessThan(800);
      await panel.page.locator('.staff').focus();
      await panel.page.keyboard.press('End');
      expect(await selected(panel)).toBe('1599');
      const board = await panel.page.locator('.board').boundingBox();
      expect(board!.y).toBeLessThan(size.height - 120);
      const path = (await panel.page.locator('.path').boundingBox())!;
      await panel.page.mouse.click(path.x + path.width / 2, path.y + path.height / 2);
      expect(Math.abs(Number(await selected(panel)) - 800)).toBeLessThan(60);
      // The first note of a stretch of bars that is drawn at once: what is drawn above it must not push it away.
      await panel.page.keyboard.press('b');
      await panel.page.keyboard.type('129');
      await panel.page.keyboard.press('Enter');
      expect(await selected(panel)).toBe('1024');
      await panel.page.waitForTimeout(600);
      const frame = (await panel.page.locator('.staff').boundingBox())!;
      const note = (await panel.page.locator('.staff .pw-on').boundingBox())!;
      expect(note.y).toBeGreaterThan(frame.y - note.height / 2);
      expect(note.y + note.height / 2).toBeLessThan(frame.y + frame.height);
      expect(panel.broken).toEqual([]);
      await panel.page.close();
    }
  });
});

test('in a panel as low as beside a list of problems the fingerboard does not cover the staff', async () => {
  const panel = await PanelPage.open(browser, 'vscode-light', { width: 700, height: 500 }, () => []);
  await panel.send({ type: 'scene', scene: plain('1/4 E5<>A5 D6o A5 D5'), at: { passage: 0, event: 0 } });
  const note = panel.page.locator('.staff [data-event="0"]');
  await note.waitFor();
  const covered = await note.evaluate((each) => {
    const { x, y, width, height } = each.getBoundingClientRect();
    return !each.closest('.staff')?.contains(document.elementFromPoint(x + width / 2, y + height - 8));
  });
  expect(covered).toBe(false);
  await panel.page.close();
});

describe('by keyboard alone', () => {
  test('keys work wherever the keyboard is in the panel, but in a field', async () => {
    const panel = await PanelPage.open(browser, 'vscode-dark', WIDE, () => []);
    await panel.send({
      type: 'scene',
      scene: plain('meter: 4/4\n1/8 D5 A4 D6o E6o F#6o G6o A5 B5 | 1/4 A5 B5 C6 D6 ||'),
      at: { passage: 0, event: 2 },
    });
    // Nothing has been pressed: the window comes to the front, as it does in the editor.
    await panel.page.evaluate(() => window.dispatchEvent(new Event('focus')));
    expect(await panel.page.evaluate(() => document.activeElement?.className)).toBe('staff');
    await panel.page.keyboard.press('ArrowRight');
    expect(await selected(panel)).toBe('3');
    await panel.page.getByRole('button', { name: 'Whole string' }).focus();
    await panel.page.keyboard.press('ArrowRight');
    expect(await selected(panel)).toBe('4');
    await panel.page.keyboard.press('b');
    expect(await panel.page.evaluate(() => document.activeElement?.id)).toBe('bar');
    await panel.page.keyboard.type('2');
    await panel.page.keyboard.press('Enter');
    expect(await selected(panel)).toBe('8');
    await panel.page.close();
  });
});
