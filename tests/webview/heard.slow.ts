import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { HeardMessage } from '../../client/webview/messages';
import type { Scene } from '../../server/protocol/scene';
import { othersOf } from '../scene/lighthouse';
import { sceneOf, solutionsOf } from '../scene/solved';
import { openBrowser, PanelPage } from './panel-page';

const TEXT = 'passage: Slipway\ntempo: 1/4 = 80\nmeter: 4/4\n1/4 D6o E6o F#6o A6o |\nE5<>A5 F#5<>B5 G5 1/4 D6o+A6o ||\n';

let browser: Browser;
let scene: Scene;
beforeAll(async () => {
  browser = await openBrowser();
  scene = JSON.parse(JSON.stringify(sceneOf(TEXT))) as Scene;
});
afterAll(() => browser?.close());

function mark(event: number, verdict: HeardMessage['heard']['runs'][0]['marks'][0]['verdict'], words: string, note = 0) {
  const seconds = verdict === 'not-heard' ? [] : Array.from({ length: 60 }, (_, i) => event + i / 80);
  const cents = seconds.map((time) => 12 * Math.sin(35 * time) + 3 * event);
  return { event, note, verdict, words, onset: event, end: event + 0.9, curve: { seconds, cents } };
}

function heard(version: number): HeardMessage {
  const marks = [
    mark(0, 'spoke', 'spoke, in tune'),
    mark(1, 'other', 'sounded as another partial (2)'),
    mark(2, 'late', 'spoke 120 ms late, 4 cents high'),
    mark(3, 'not-heard', 'not heard'),
    mark(4, 'not-judged', 'not judged'),
    mark(5, 'other', 'sounded as the stopped note'),
    mark(6, 'spoke', 'spoke, 18 cents high'),
    mark(7, 'spoke', 'spoke, in tune'),
    mark(7, 'late', 'spoke 90 ms late, in tune', 1),
  ];
  return {
    type: 'heard',
    version,
    passage: 0,
    recording: 'take.wav',
    heard: {
      summary: ['1 whole take and 1 part or false start in 12 s.', 'Natural harmonics: 3 of 5 spoke, 1 late.'],
      runs: [
        { from: 0, to: 2, whole: false, marks: marks.slice(0, 2) },
        { from: 0, to: 8, whole: true, marks },
      ],
    },
    counts: [{ attempt: 'III 1/4', clean: 1, tried: 2 }],
    player: 'kit.player',
  };
}

test('a recording is told on staff, board and curve, leads to the text, and is left where the text has changed', async () => {
  const panel = await PanelPage.open(browser, 'vscode-light', { width: 1100, height: 1000 }, ({ passage, event }) =>
    othersOf(solutionsOf(TEXT)[passage]!, event),
  );
  const { page } = panel;
  await panel.send({ type: 'scene', scene, at: { passage: 0, event: 0 } });
  expect(await page.locator('.heard').isHidden()).toBe(true);
  await panel.send(heard(scene.version));
  expect(await page.locator('.staff .pw-heard').allTextContents()).toEqual([
    '✓',
    '✕other',
    '›late',
    '○silent',
    '?unsure',
    '✕other',
    '✓',
    '›late',
  ]);
  await page.locator('.curve [data-event="5"]').click();
  expect(await panel.sent()).toContainEqual(expect.objectContaining({ type: 'reveal', at: { passage: 0, event: 5 } }));
  expect((await page.locator('.board').textContent()) ?? '').toContain('✕ another pitch');
  expect(await page.locator('#account').textContent()).toContain('In the recording: sounded as the stopped note.');
  if (process.env.PICTURES) await page.screenshot({ path: `${process.env.PICTURES}/heard.png`, fullPage: true });
  await page.getByLabel('Which take').selectOption({ index: 0 });
  expect(await page.locator('.staff .pw-heard').count()).toBe(2);
  await page.getByRole('button', { name: /Count Them/ }).click();
  expect(await panel.sent()).toContainEqual({ type: 'count', back: false });
  await panel.send({ type: 'scene', scene: { ...scene, version: scene.version + 1 } });
  expect(await page.locator('.staff .pw-heard').count()).toBe(0);
  expect((await page.locator('.heard').textContent()) ?? '').toContain('The text has changed');
  expect(panel.broken).toEqual([]);
});
