import { copyFileSync, existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { MovingPicture } from './moving-picture';
import { Session } from './session';

const STUDY = `instrument: violin
hand: medium

passage: First light
tempo: 1/4 = 72
meter: 4/4
1/4 D5 F#5 A5 D6o |
`;
/** `E5<>A5` sounds E7, two octaves above the stopped note: common practice, no source. */
const WRONG_CLAIM = 'instrument: violin\nhand: medium\n\n1/4 E5<>A5 = E6 D6o A5 D5\n';
/** Typed word by word, as somebody would who has the pitches before them. */
const TYPED = ['E6o', 'F#6o', 'G6o', 'A6o', '|'];
/** What a page of the web can load without a wait, bytes. */
const LARGEST = 1_000_000;

/** What stands in the way of the passage in a small picture. */
const BARE = {
  'workbench.activityBar.location': 'hidden',
  'workbench.colorTheme': 'Default Light Modern',
  'editor.minimap.enabled': false,
  'editor.quickSuggestions': { other: 'off', comments: 'off', strings: 'off' },
  'breadcrumbs.enabled': false,
  'editor.cursorBlinking': 'solid',
};

/** The moving picture at the head of the README: a bar is typed, a note is asked about, the preview follows. */
describe('the tour that the README begins with', () => {
  let session: Session;
  beforeAll(async () => {
    const files = { 'first-light.passage': STUDY, 'wrong-claim.passage': WRONG_CLAIM };
    session = await Session.open({ name: 'tour', extensionHost: 'node', settings: BARE, folder: 'dawn', files });
  });
  afterAll(async () => {
    await session?.close();
    if (!process.env.UPDATE_PICTURES) return;
    for (const name of ['tour', 'preview', 'hover', 'problems']) {
      const taken = join(session.editor.pictures, `${name}.png`);
      if (existsSync(taken)) copyFileSync(taken, `client/pictures/${name}.png`);
    }
  });
  afterEach((context) => session?.keepFailure(context));

  it('is filmed', async () => {
    const { editor } = session;
    const { keyboard } = editor.page;
    const film = new MovingPicture(editor.page);
    await editor.page.setViewportSize({ width: 1180, height: 800 });
    await editor.openFile('first-light.passage');
    await editor.command('View: Close Primary Side Bar');
    await editor.command('Passagework: Open Preview Beside the Text');
    await editor.note(3).waitFor();
    await editor.tidy();
    await editor.cursorTo(8, 1);
    await editor.page.waitForTimeout(1500);
    await film.frame(1500);
    for (const [index, word] of TYPED.entries()) {
      await keyboard.type(`${index > 0 ? ' ' : ''}${word}`);
      if (word !== '|') await editor.note(4 + index, 'pw-on').waitFor();
      await editor.page.waitForTimeout(700);
      await film.frame(900);
    }
    for (const column of [6, 11]) {
      await editor.cursorTo(8, column);
      await editor.page.waitForTimeout(700);
      await film.frame(900);
    }
    await editor.hover('G6o', /Why: /);
    await editor.page.waitForTimeout(500);
    await film.frame(3500);
    const file = join(editor.pictures, 'tour.png');
    film.write(file);
    // Eight pictures at least, and small enough to begin a page with.
    expect(statSync(file).size).toBeLessThan(LARGEST);
  });

  it('has its still pictures taken', async () => {
    const { editor } = session;
    await editor.page.setViewportSize({ width: 1500, height: 920 });
    await editor.openFile('lighthouse-study.passage');
    await editor.tidy();
    await editor.cursorTo(10, 18);
    await editor.note(3, 'pw-on').waitFor();
    await editor.preview().locator('.board svg').waitFor();
    await editor.page.waitForTimeout(1000);
    await editor.picture('preview');
    await editor.hover('C#7o', /Why: /);
    await editor.picture('hover');
    await editor.openFile('wrong-claim.passage');
    await editor.page.locator('.squiggly-error').first().waitFor({ state: 'attached' });
    await editor.openProblems();
    await editor.problems().filter({ hasText: 'not E6' }).first().waitFor();
    await editor.tidy();
    await editor.picture('problems');
  });
});
