import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Chance } from '../listening/chance';
import { type Played, perform } from '../listening/performance';
import { record } from '../listening/synthesis';
import { wavOf } from '../listening/wav-of';
import { passageOf } from '../scene/solved';
import { findings } from './accessibility';
import type { Editor } from './editor';
import { Session } from './session';

const MUSIC = 'passage: Slipway\ntempo: 1/4 = 80\nmeter: 4/4\n1/4 D6o E6o F#6o A6o |\nE5<>A5 F#5<>B5 G5 A5 ||\n';
const PASSAGE = `player: kit.player\n${MUSIC}`;
const KIT = 'name: Kit\nhand: medium // for now\n\nIII 2/5: 1 of 10 // whistles\n';
const RATE = 44_100;

/** What goes wrong in which of its notes. */
const WRONG: Readonly<Record<number, (note: Played) => Partial<Played>>> = {
  1: ({ hz }) => ({ partial: 2, hz: (hz / 3) * 2 }),
  3: () => ({ hz: 0 }),
  5: ({ hz }) => ({ partial: 1, hz: hz / 4 }),
};

function take(): Uint8Array {
  const scene = passageOf(MUSIC);
  const whole = perform(new Chance(5), scene, { faults: 0, vibrato: true, falseStart: false, takes: 1, drift: 0 });
  const played = whole.played.map((note) => ({ ...note, ...WRONG[note.event]?.(note) }));
  return wavOf(record(new Chance(9), scene.board, { ...whole, played }, { rate: RATE, method: 'partials', noise: 20 }), RATE);
}

/** A recording held against the passage, in both places where VS Code runs an extension. */
describe.each(['node', 'web'] as const)('VS Code, a recording, extension in the %s host', (extensionHost) => {
  let session: Session;
  let editor: Editor;

  beforeAll(async () => {
    const files = { 'slipway.passage': PASSAGE, 'kit.player': KIT, 'take.wav': take(), 'notes.wav': 'no sound at all' };
    session = await Session.open({ name: `listening-${extensionHost}`, extensionHost, folder: `slip-${extensionHost}`, files });
    editor = session.editor;
  });
  afterAll(() => session?.close());
  afterEach((context) => session?.keepFailure(context));

  const listenTo = async (file: string) => {
    await editor.command('Passagework: Listen to a Recording of This Passage…');
    await editor.choose(file);
  };

  it('says what is wrong with a file that can’t be listened to', async () => {
    await editor.openFile('slipway.passage');
    await editor.cursorTo(5, 5);
    await listenTo('notes.wav');
    await editor.page.locator('.notifications-toasts', { hasText: 'notes.wav: It is neither a WAV nor a FLAC file' }).waitFor();
    await editor.tidy();
  });

  it('shows every note’s verdict on the staff and the board, by sign and word, and the pitch curve', async () => {
    await editor.focus();
    await listenTo('take.wav');
    const page = editor.preview();
    await page.locator('.heard h2', { hasText: 'Recording take.wav' }).waitFor();
    await page.locator('.heard .told', { hasText: '1 whole take' }).waitFor();
    await page.locator('.staff [data-event="0"] .pw-heard', { hasText: '✓' }).waitFor();
    await page.locator('.staff [data-event="1"] .pw-heard', { hasText: '✕other' }).waitFor();
    await page.locator('.staff [data-event="3"] .pw-heard', { hasText: '○silent' }).waitFor();
    expect(await page.locator('.curve [data-event]').count()).toBe(8);
    await editor.picture('heard');
    expect(await findings(await editor.previewFrame())).toEqual([]);
  });

  it('goes from the curve to the text, and tells on the board what sounded', async () => {
    const column = editor.preview().locator('.curve [data-event="5"]');
    await column.scrollIntoViewIfNeeded();
    await column.click();
    await editor.note(5, 'pw-on').waitFor();
    await editor.focus();
    await editor.place('(7 selected)').waitFor();
    // Upright, as beside the text, the board has room for the sign only; the account has the words.
    await editor.preview().locator('.board text', { hasText: '✕' }).first().waitFor();
    await editor.preview().locator('#account', { hasText: 'In the recording: sounded as the stopped note.' }).waitFor();
    await editor.picture('heard-note');
  });

  it('shows what it would write into the player file, writes it once asked, and takes it back', async () => {
    await editor
      .preview()
      .getByRole('button', { name: /^Count Them in kit.player/ })
      .click();
    const asked = editor.page.locator('.monaco-dialog-box');
    await asked.locator('.dialog-message-detail', { hasText: /\+ II 1\/3: 0 of 1/ }).waitFor();
    await editor.picture('count');
    await asked.getByRole('button', { name: 'Count', exact: true }).click();
    await session.saved('kit.player', /\n\/\/ recording [0-9a-f]{16}: /);
    await session.saved('kit.player', /III 2\/5: 1 of 10 \/\/ whistles/);
    await editor.preview().getByRole('button', { name: 'Take Them Back…' }).click();
    await asked.getByRole('button', { name: 'Take Back', exact: true }).click();
    await session.saved('kit.player', /^name: Kit\nhand: medium \/\/ for now\n\nIII 2\/5: 1 of 10 \/\/ whistles\n$/);
  });
});
