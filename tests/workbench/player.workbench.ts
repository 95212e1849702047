import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { findings } from './accessibility';
import type { Editor } from './editor';
import { Session } from './session';

const PASSAGE = 'player: kit.player\n\n1/4 F#6o\n';
const KIT = 'name: Kit\nhand: medium // for now\n\nIII 2/5: 0 of 10 // whistles\n';

/** A player's file and the passages that name it, in both places where VS Code runs an extension. */
describe.each(['node', 'web'] as const)('VS Code, a player’s file, extension in the %s host', (extensionHost) => {
  let session: Session;
  let editor: Editor;
  const saved = (file: string, wanted: RegExp) => session.saved(file, wanted);

  beforeAll(async () => {
    const files = { 'swell.passage': PASSAGE, 'kit.player': KIT };
    session = await Session.open({ name: `player-${extensionHost}`, extensionHost, folder: `kit-${extensionHost}`, files });
    editor = session.editor;
  });
  afterAll(() => session?.close());
  afterEach((context) => session?.keepFailure(context));

  it('tells why a node is left: the record against the model', async () => {
    await editor.openFile('swell.passage');
    const hover = await editor.hover('F#6o', /left aside/);
    const told = (await hover.textContent()) ?? '';
    expect(told).toMatch(/III 2\/5 is left aside/);
    expect(told).toMatch(/0 of 10 came out clean; the model expects \w/);
    await editor.picture('record');
  });

  it('counts an attempt from the note, in the file on disk, and leaves its comments', async () => {
    await editor.cursorTo(3, 6);
    await editor.quickFix(/^Log an attempt at .*: not clean/);
    await saved('kit.player', /III 2\/5: 0 of 10 \/\/ whistles\n[IV]+ .*: 0 of 1\n/);
    // Known to the passage at once.
    await editor.hover('F#6o', /0 of 1 came out clean/);
  });

  it('shows mistakes in the file, and counts from the line above its attempts', async () => {
    await editor.openFile('kit.player');
    await editor.page.locator('.codelens-decoration a', { hasText: 'not clean: 0 of 11' }).first().click();
    await saved('kit.player', /III 2\/5: 0 of 11 \/\/ whistles/);
    await editor.cursorTo(1, 1);
    await editor.page.keyboard.type('x');
    await editor.page.locator('.squiggly-error').first().waitFor({ state: 'attached' });
    await editor.undo();
    await editor.page.locator('.squiggly-error').first().waitFor({ state: 'detached' });
  });

  it('measures a hand, by keyboard alone, and writes it into the file', async () => {
    await editor.cursorTo(1, 1);
    await editor.command('Passagework: Measure My Reach');
    const page = editor.preview();
    await page.locator('#mm').fill('50');
    await page.locator('#mm').press('Enter');
    await page.locator('h2', { hasText: '2 of 6' }).waitFor();
    expect(await findings(await editor.previewFrame())).toEqual([]);
    await editor.picture('measure');
    // Asked for again, it is the same page.
    await editor.command('Passagework: Measure My Reach');
    await page.locator('h2', { hasText: '2 of 6' }).waitFor();
    expect(await editor.page.locator('.tab', { hasText: 'Measure My Reach' }).count()).toBe(1);
    for (let pair = 2; pair <= 6; pair++) {
      await page.locator('h2', { hasText: `${pair} of 6` }).waitFor();
      await page.getByRole('button', { name: 'Skip this pair' }).press('Enter');
    }
    await page.getByRole('button', { name: 'Write into kit.player' }).press('Enter');
    await saved('kit.player', /\nhand: 1-2 50 \/\/ for now\n/);
    await page.locator('[role=status]', { hasText: 'Written into kit.player.' }).waitFor();
    await editor.picture('measured');
  });
});
