import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { findings } from './accessibility';
import type { Editor } from './editor';
import { Session } from './session';

/** 200 bars of eight notes: a study as long as a book has them. */
const BARS = 200;
const LONG = `passage: Long swell\ntempo: 1/4 = 80\n${'1/8 D5 F#5 A5 D6o E6o F#6o A5 F#5 |\n'.repeat(BARS)}`;
const TRIED = 'instrument: violin\nplayer: kit.player\n\n1/4 D6o [III] E6o F#6o |\n';
const KIT = 'name: Kit\ninstrument: violin\nhand: medium\nIII 1/4: 3 of 4 // on gut\n';
/** A tune with words, which a passage does not have (ABC 2.1, 2011). */
const TUNE = 'X:1\nT:Slack water\nM:4/4\nL:1/4\nK:D\nd e f a | f e d2 |]\nw: low and slow it rises then it falls\n';

/** A teacher's first lessons with the extension on a laptop's screen, Explorer open, in both places where VS Code runs it. */
describe.each(['node', 'web'] as const)('a teacher at a laptop, extension in the %s host', (extensionHost) => {
  let session: Session;
  let editor: Editor;

  beforeAll(async () => {
    const files = {
      'long.passage': LONG,
      'tried.passage': TRIED,
      'kit.player': KIT,
      'empty.passage': '',
      'slack-water.abc': TUNE,
    };
    const name = `lessons-${extensionHost}`;
    session = await Session.open({ name, extensionHost, settings: {}, folder: `pier-${extensionHost}`, files });
    editor = session.editor;
    await editor.page.setViewportSize({ width: 1440, height: 900 });
  });
  afterAll(() => session?.close());
  afterEach((context) => session?.keepFailure(context));

  /** The part of the window's height and width that an element of the preview lies in, whole. */
  async function inView(selector: string): Promise<boolean> {
    const box = await editor.preview().locator(selector).first().boundingBox();
    const { width, height } = editor.page.viewportSize()!;
    return box !== null && box.x >= 0 && box.y >= 0 && box.x + box.width <= width + 1 && box.y + box.height <= height + 1;
  }

  /** Every lens on the screen ends before its editor does, and no letter of it is left out. */
  async function lensesWhole(): Promise<void> {
    const lenses = editor.page.locator('.codelens-decoration');
    await lenses.filter({ hasText: 'hardest: bar' }).first().waitFor();
    const frame = await editor.page.locator('.editor-instance').first().boundingBox();
    for (const lens of await lenses.all()) {
      const { right, cut } = await lens.evaluate((element) => ({
        right: element.getBoundingClientRect().right,
        cut: element.scrollWidth - element.clientWidth,
      }));
      expect(right).toBeLessThanOrEqual(frame!.x + frame!.width);
      expect(cut).toBeLessThanOrEqual(0);
    }
  }

  it('opens the example with a good result first, the fingerboard in view', async () => {
    await editor.command('Passagework: Open the Example');
    await editor.note(0).waitFor();
    await editor.preview().locator('.board svg').waitFor();
    await expect.poll(() => inView('.board')).toBe(true);
    await editor.tidy();
    await editor.picture('1-example');
    expect(await findings(await editor.previewFrame())).toEqual([]);
  });

  it('has lenses that are not cut beside the preview', () => lensesWhole());

  it('takes arrows and space as soon as the keyboard goes to the preview', async () => {
    await editor.cursorTo(10, 6);
    await editor.note(0, 'pw-on').waitFor();
    await editor.page.keyboard.press('Control+2');
    await editor.preview().locator('.staff:focus').waitFor();
    await editor.page.keyboard.press('ArrowRight');
    await editor.note(1, 'pw-on').waitFor();
    await editor.page.keyboard.press(' ');
    await editor.preview().locator('.staff .pw-playing').first().waitFor();
    await editor.page.keyboard.press(' ');
    await editor.preview().getByRole('button', { name: 'Play', exact: true }).waitFor();
    await editor.picture('2-keys');
  });

  it('keeps the fingerboard in view and the lenses whole in a narrow window', async () => {
    await editor.page.setViewportSize({ width: 820, height: 900 });
    await editor.command('View: Close Primary Side Bar');
    await editor.preview().locator('.board svg').waitFor();
    await expect.poll(() => inView('.board')).toBe(true);
    await lensesWhole();
    await editor.picture('3-narrow');
    expect(await findings(await editor.previewFrame())).toEqual([]);
    await editor.page.setViewportSize({ width: 1440, height: 900 });
    await editor.command('View: Show Explorer');
  });

  it('scrolls a long passage to its last bar, jumps to a bar, and goes where the path of the hand is pressed', async () => {
    await editor.focus();
    await editor.openFile('long.passage');
    const last = BARS * 8 - 1;
    await editor
      .preview()
      .locator('.transport', { hasText: `of ${BARS}` })
      .waitFor();
    await editor
      .preview()
      .locator('.staff')
      .evaluate((staff) => staff.scrollTo(0, staff.scrollHeight));
    await editor.note(last).waitFor();
    await editor.picture('4-last-bar');
    await editor.preview().locator('#bar').fill('100');
    await editor.preview().locator('#bar').press('Enter');
    await editor.note(99 * 8, 'pw-on').waitFor();
    const path = editor.preview().locator('.path');
    const { width } = (await path.boundingBox())!;
    await path.click({ position: { x: width * 0.75, y: 60 } });
    await editor.preview().locator('.staff .pw-on').waitFor();
    await expect.poll(async () => Number(await editor.preview().locator('#bar').inputValue())).toBeGreaterThan(120);
    await editor.picture('5-path');
  });

  it('lists bars in the outline, and says first what, where and why in a hover', async () => {
    await editor.openFile('tried.passage');
    const hover = await editor.hover('E6o', /Why: /);
    expect(await hover.textContent()).toMatch(/^E6 natural harmonic, I+ at \d\/\d, \w+ finger.*Why: .*Clean and in tune/);
    await editor.picture('6-hover');
  });

  it('counts an attempt, says what it wrote, and takes it back with one click', async () => {
    await editor.cursorTo(4, 6);
    await editor.quickFix(/^Log an attempt at .*: clean$/);
    const toast = editor.page.locator('.notifications-toasts .notification-list-item', { hasText: 'III 1/4: 4 of 5' });
    await toast.waitFor();
    await session.saved('kit.player', /III 1\/4: 4 of 5 \/\/ on gut/);
    await editor.picture('7-attempt');
    await toast.hover();
    await toast.locator('a', { hasText: 'Undo' }).click();
    await session.saved('kit.player', /III 1\/4: 3 of 4 \/\/ on gut/);
  });

  it('writes a hint into the text with a double click', async () => {
    await editor.openFile('lighthouse-study.passage');
    const hint = editor.page.locator('.view-line [class*="dyn-rule"]', { hasText: /^[\s\u00a0]*(\[|I|1|2|3|4)/ }).first();
    await hint.waitFor();
    await editor.picture('8-hints');
    await hint.dblclick();
    await session.saved('lighthouse-study.passage', /D6o \[[^\]]+\]/);
    await editor.undo();
  });

  it('offers settings first in an empty file, values, and the ways of a note; what is missing is a soft note', async () => {
    await editor.openFile('empty.passage');
    const list = editor.page.locator('.suggest-widget.visible .monaco-list-row');
    await editor.until(list, () => editor.page.keyboard.press('Control+ '));
    await editor.picture('9-empty-file');
    await editor.page.keyboard.press('Escape');
    await editor.page.keyboard.type('instrument:');
    await editor.page.locator('.squiggly-hint').first().waitFor({ state: 'attached' });
    expect(await editor.page.locator('.squiggly-error').count()).toBe(0);
    await editor.page.keyboard.type(' ');
    await editor.until(list, () => editor.page.keyboard.press('Control+ '));
    await editor.picture('10-values');
    await editor.page.keyboard.press('Escape');
    await editor.page.keyboard.type('violin');
    // Where the list has come up again by now, Enter would take its first entry (not once it is written whole: `smart`).
    await editor.page.keyboard.press('Escape');
    await editor.page.keyboard.press('Enter');
    await editor.page.keyboard.type('1/4 A5o [');
    await list.first().waitFor();
    await editor.picture('11-ways');
    await editor.page.keyboard.press('Escape');
  });

  it('puts the report of an import below the text, with the preview still in view', async () => {
    await editor.command('Passagework: Import a Score…');
    await editor.choose('slack-water.abc');
    const line = (hasText: string) => editor.page.locator('.editor-instance .view-line', { hasText }).first();
    await line('Import report: slack-water.abc').waitFor();
    await line('key: D major').waitFor();
    await editor.preview().locator('.board svg').waitFor();
    await editor.picture('12-imported');
  });
});
