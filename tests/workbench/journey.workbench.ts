import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { findings } from './accessibility';
import type { Editor } from './editor';
import { listen, loudness } from './listen';
import { PATIENCE } from './patience';
import { Session } from './session';

/** A chance as players count. */
const OFTEN = /nearly always|19 times in 20|\d times in 10|once in 10|hardly ever/;
/** `E5<>A5` sounds E7, two octaves above the stopped note: common practice, no source. */
const WRONG_CLAIM = 'instrument: violin\nhand: medium\n\n1/4 E5<>A5 = E6 D6o A5 D5\n';
const STUDY = `instrument: violin
hand: medium

passage: Breakwater
tempo: 1/4 = 60
1/4 D6o E6o F#6o G6o |
A6o B6o C#7o D7o ||

passage: Harbour bells
1/2 E6o+B6o A6o ||
`;

/**
 * One person's day with the extension, in both places where VS Code runs one. Each step
 * starts where the last one ended.
 */
describe.each([
  { extensionHost: 'node', theme: 'Light Modern' },
  { extensionHost: 'web', theme: 'Dark Modern' },
] as const)('VS Code, extension in the $extensionHost host', ({ extensionHost, theme }) => {
  let session: Session;
  let editor: Editor;
  const saved = (file: string, wanted: RegExp) => session.saved(file, wanted);

  beforeAll(async () => {
    const files = { 'wrong-claim.passage': WRONG_CLAIM, 'breakwater.passage': STUDY };
    const settings = { 'workbench.colorTheme': `Default ${theme}` };
    session = await Session.open({ name: extensionHost, extensionHost, settings, folder: `harbour-${extensionHost}`, files });
    editor = session.editor;
  });
  afterAll(() => session?.close());
  afterEach((context) => session?.keepFailure(context));

  it('shows a wrong claim in the text and in the problems panel', async () => {
    await editor.openFile('wrong-claim.passage');
    await editor.page.locator('.squiggly-error').first().waitFor({ state: 'attached' });
    await editor.openProblems();
    const row = editor.problems().filter({ hasText: 'E7' });
    await row.first().waitFor();
    expect(await row.count()).toBe(1);
    await editor.picture('problems');
  });

  it('fixes it with a quick fix, and undo brings it back', async () => {
    await editor.cursorTo(4, 16);
    await editor.quickFix('E7');
    await saved('wrong-claim.passage', /E5<>A5 = E7 D6o A5 D5/);
    await editor.page.locator('.squiggly-error').first().waitFor({ state: 'detached' });
    await editor.undo();
    await saved('wrong-claim.passage', /E5<>A5 = E6 D6o A5 D5/);
    await editor.page.locator('.squiggly-error').first().waitFor({ state: 'attached' });
    await editor.undo('redo');
    await saved('wrong-claim.passage', /E5<>A5 = E7 D6o A5 D5/);
    await editor.page.keyboard.press('Control+j');
    await editor.page.locator('.markers-panel').waitFor({ state: 'hidden' });
  });

  it('explains a note and its alternatives in a hover, with a picture of the string', async () => {
    await editor.openFile('breakwater.passage');
    const hover = await editor.hover('F#6o', /mm/);
    const told = (await hover.textContent()) ?? '';
    expect(told).toMatch(/\b(I|II|III|IV)\b/);
    expect(told).toMatch(OFTEN);
    const picture = hover.locator('img').first();
    await picture.waitFor();
    expect(await picture.evaluate((image) => (image as HTMLImageElement).naturalWidth)).toBeGreaterThan(100);
  });

  it('writes an alternative of the hover into the text', async () => {
    const hover = await editor.hover('F#6o', /mm/);
    await hover.locator('a[data-href*="passagework.pin"]').first().click();
    await saved('breakwater.passage', /F#6o \[[^\]]+\]/);
    await editor.undo();
    await saved('breakwater.passage', /F#6o G6o/);
  });

  it('tells hand and chance in the status bar', async () => {
    await editor.cursorTo(6, 5);
    await editor.status(new RegExp(`medium hand, clean (${OFTEN.source})`)).waitFor();
  });

  it('pins the chosen fingering into the text', async () => {
    await editor.cursorTo(6, 6);
    await editor.quickFix(/^Pin this note/);
    await saved('breakwater.passage', /1\/4 D6o \[[^\]]+\] E6o/);
    await editor.undo();
    await saved('breakwater.passage', /1\/4 D6o E6o/);
  });

  it('opens the preview from the title of the editor, on the note at the cursor', async () => {
    await editor.cursorTo(6, 10);
    await editor.page.locator('.editor-actions a[aria-label^="Open Preview"]').first().click();
    await editor.note(1, 'pw-on').waitFor();
    await editor.preview().locator('.board svg').first().waitFor();
  });

  it('follows the cursor, from note to note and from passage to passage', async () => {
    await editor.cursorTo(7, 10);
    await editor.note(6, 'pw-on').waitFor();
    await editor.preview().locator('#account', { hasText: 'C sharp 7' }).waitFor();
    await editor.cursorTo(10, 14);
    await editor.note(1, 'pw-on').waitFor();
    expect(await editor.preview().getByLabel('Passage', { exact: true }).inputValue()).toBe('1');
    await editor.cursorTo(6, 5);
    await editor.note(0, 'pw-on').waitFor();
  });

  it('selects a pressed note in the text, and stays there', async () => {
    await editor.note(3).click();
    await editor.note(3, 'pw-on').waitFor();
    await editor.focus();
    await editor.place('Ln 6, Col 21 (3 selected)').waitFor();
    // A loop would have moved either side by now.
    await editor.page.waitForTimeout(1000);
    expect(await editor.place('Ln 6, Col 21 (3 selected)').count()).toBe(1);
    expect(await editor.note(3, 'pw-on').count()).toBe(1);
  });

  it('is played through with the keyboard alone, and Enter leads back to the text', async () => {
    await editor.preview().locator('.staff').focus();
    await editor.page.keyboard.press('ArrowRight');
    await editor.note(4, 'pw-on').waitFor();
    await editor.page.keyboard.press('Home');
    await editor.note(0, 'pw-on').waitFor();
    // The workbench may give the focus back to a panel that is being drawn, as to a person who is quick: press again.
    const press = async () => {
      await editor.preview().locator('.staff').focus();
      await editor.page.keyboard.press('Enter');
      const there = editor.place('Ln 6, Col 8 (3 selected)').waitFor({ timeout: PATIENCE / 9 });
      return there.then(
        () => true,
        () => false,
      );
    };
    await expect.poll(press, { timeout: PATIENCE }).toBe(true);
  });

  it('writes another way to play a note into the text, and undo takes it out', async () => {
    const choice = editor.preview().locator('.choices button.choice').first();
    await choice.hover();
    await editor.picture('compare');
    await choice.click();
    await saved('breakwater.passage', /1\/4 D6o \[[^\]]+\] E6o/);
    await editor.undo();
    await saved('breakwater.passage', /1\/4 D6o E6o/);
  });

  it('sounds once Play is pressed, and moves along', async () => {
    await listen(await editor.previewFrame());
    await editor.cursorTo(6, 5);
    await editor.note(0, 'pw-on').waitFor();
    await editor.preview().getByRole('button', { name: 'Play', exact: true }).click();
    await editor.note(1, 'pw-playing').waitFor();
    expect(await loudness(await editor.previewFrame())).toBeGreaterThan(0.001);
    await editor.picture('sound');
    await editor.preview().getByRole('button', { name: 'Pause', exact: true }).click();
    await editor.preview().getByRole('button', { name: 'Play', exact: true }).waitFor();
  });

  it('has nothing in the preview that the accessibility rules object to', async () => {
    expect(await findings(await editor.previewFrame())).toEqual([]);
  });

  it.each(['Dark High Contrast', 'Light High Contrast'])('keeps to the rules in the colours of %s', async (contrast) => {
    await editor.theme(contrast);
    await editor.preview().locator('body[class*="high-contrast"]').waitFor();
    expect(await findings(await editor.previewFrame())).toEqual([]);
    await editor.picture(contrast.toLowerCase().replaceAll(' ', '-'));
    await editor.theme(theme);
    await editor.preview().locator('body:not([class*="high-contrast"])').waitFor();
  });

  it('brings the preview back when the window is loaded again', async () => {
    await editor.page.reload();
    await editor.preview().locator('.staff [data-event]').first().waitFor();
    await editor.cursorTo(6, 13);
    await editor.note(2, 'pw-on').waitFor();
  });

  it('exports the passage at the cursor as MusicXML', async () => {
    await editor.cursorTo(6, 5);
    await editor.command('Passagework: Export This Passage…');
    await editor.choose('MusicXML');
    await editor.confirmFile('Breakwater.musicxml');
    await saved('Breakwater.musicxml', /<score-partwise[\s\S]*<natural\/>[\s\S]*<\/score-partwise>/);
  });

  it('writes exercises for the passage at the cursor', async () => {
    await editor.cursorTo(6, 5);
    await editor.command('Passagework: Write Exercises for This Passage');
    await editor.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Tempo ladder' }).waitFor();
    await editor.page.keyboard.press('Enter');
    await editor.untitled().waitFor();
    await editor.page.locator('.editor-instance .view-line', { hasText: 'title: Exercises for Breakwater' }).first().waitFor();
    await editor.picture('exercises');
    await editor.discardUntitled();
    await editor.openFile('breakwater.passage');
  });

  it('makes a printed sheet of the file', async () => {
    await editor.focus();
    await editor.command('Passagework: New Printed Sheet…');
    // A web worker writes no PDF, so there is nothing to choose.
    if (extensionHost === 'node') await editor.choose('Sheet as a web page');
    await editor.confirmFile('breakwater.html');
    await saved('breakwater.html', /Breakwater[\s\S]*<svg[\s\S]*Harbour bells/);
  });

  if (extensionHost === 'node') {
    it('makes it as PDF where Node runs the extension', async () => {
      await editor.command('Passagework: New Printed Sheet…');
      await editor.choose('Sheet as PDF');
      await editor.confirmFile('breakwater.pdf');
      await saved('breakwater.pdf', /^%PDF-[\s\S]*%%EOF/);
    });
  }

  it('imports a score as a new passage', async () => {
    await editor.command('Passagework: Import a Score…');
    await editor.choose('Breakwater.musicxml');
    await editor.untitled().waitFor();
    await editor.page.locator('.editor-instance .view-line', { hasText: 'passage: Breakwater' }).first().waitFor();
    await editor.picture('imported');
    await editor.discardUntitled();
    await editor.openFile('breakwater.passage');
  });

  it('has its picture taken', async () => {
    await editor.openFile('lighthouse-study.passage');
    await editor.page.setViewportSize({ width: 1600, height: 1000 });
    await editor.page.keyboard.press('Control+b');
    await editor.page.locator('.explorer-folders-view').waitFor({ state: 'hidden' });
    await editor.tidy();
    await editor.cursorTo(10, 18);
    await editor.note(3, 'pw-on').waitFor();
    await editor.preview().locator('.board:not(.upright) svg').waitFor();
    await editor.picture('preview');
    await editor.hover('C#7o', /mm/);
    await editor.picture('hover');
  });
});
