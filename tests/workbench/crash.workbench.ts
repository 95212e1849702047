import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { PATIENCE } from './patience';
import { processesBelow } from './processes';
import { Session } from './session';

const FILE = 'mole.passage';
const START = 'instrument: violin\nhand: medium\n\n1/4 D6o E6o';
/** Each claims a pitch that a stopped note with a fourth above it doesn't sound, two octaves above it: common practice, no source. */
const BEFORE = ' E5<>A5 = E6';
const DURING = ' | F#6o G6o A6o B6o | C#7o D7o A4<>D5 = A5 A6o';
const AFTER = ' B4<>E5 = B5';
const SOUNDS = { before: 'E7', during: 'A6', after: 'B6' };

/** The server's program dies under somebody's hands, once and then again and again. Nothing but that program is killed. */
// No second try: each step goes on in the text that the last one left.
describe('VS Code, a language server that dies', { retry: 0 }, () => {
  let session: Session;

  beforeAll(async () => {
    session = await Session.open({ name: 'crash', extensionHost: 'node', folder: 'mole', files: { [FILE]: `${START}\n` } });
    const { editor } = session;
    await editor.openFile(FILE);
    await editor.openProblems();
    await editor.cursorTo(4, START.split('\n')[3]!.length + 1);
    await editor.page.locator('.editor-actions a[aria-label^="Open Preview"]').first().click();
    await editor.note(1, 'pw-on').waitFor();
    await editor.focus();
  });
  afterAll(() => session?.close());
  afterEach((context) => session?.keepFailure(context));

  /** The message that the server is not started again. */
  const gaveUp = () =>
    session.editor.page.locator('.notifications-toasts .notification-list-item', { hasText: 'not started again' });
  const servers = () => processesBelow(session.server.pid, '/dist/server/node.js');
  /** Kills the one server that runs. */
  function kill(): number {
    const [pid, ...others] = servers();
    expect(others).toEqual([]);
    if (!pid) throw new Error('No language server runs.');
    process.kill(pid, 'SIGKILL');
    return pid;
  }
  /** One server runs, and not this one. */
  const another = (dead: number | undefined) =>
    expect.poll(servers, { timeout: PATIENCE }).toEqual([expect.toSatisfy((pid: number) => pid !== dead)]);
  const type = (text: string) => session.editor.page.keyboard.type(text, { delay: 30 });
  /** The file on disk, to the last character. */
  const saved = (text: string) => session.saved(FILE, new RegExp(`^${text.replace(/[|+.*?^$()[\]{}\\]/g, '\\$&')}\\n$`));
  /** The Problems view shows these pitches put right, each once, and nothing else. */
  const problems = (...pitches: string[]) =>
    expect
      .poll(async () => (await session.editor.problems().allTextContents()).filter((row) => !row.startsWith(FILE)), {
        timeout: PATIENCE,
      })
      .toEqual(pitches.map((pitch) => expect.stringContaining(pitch)));
  /** The text as it is shown, with the hints in it; lines run on. */
  const screen = async () =>
    (await session.editor.page.locator('.editor-instance .view-line').allTextContents())
      .join('')
      .replaceAll('\u00a0', ' ')
      .replaceAll('\u2215', '/');
  const events = (count: number) =>
    expect.poll(() => session.editor.preview().locator('.staff [data-event]').count(), { timeout: PATIENCE }).toBe(count);

  it('loses nothing that is being typed, comes back by itself, and speaks of the text as it stands', async () => {
    const { editor } = session;
    await type(BEFORE);
    await problems(SOUNDS.before);
    await events(3);
    const half = DURING.length >> 1;
    await type(DURING.slice(0, half));
    const dead = kill();
    await type(DURING.slice(half));
    await saved(START + BEFORE + DURING);
    await another(dead);
    await problems(SOUNDS.before, SOUNDS.during);
    expect(servers().length).toBe(1);
    await events(11);
    await editor.note(10, 'pw-on').waitFor();
    await editor.picture('back');
    for (const hint of ['E6oII at 1/3 2', 'F#6oIII at 2/5 3', 'C#7oII at 2/5 3', 'A6oII at 1/4 1'])
      await expect.poll(screen, { timeout: PATIENCE }).toContain(hint);
    await editor.hover('C#7o', /131 mm/);
  });

  it('says so when it is not started again, and the text can still be written', async () => {
    const { editor } = session;
    // The first death is in the test above; the library gives up at the fifth within three minutes.
    for (const count of [12, 13, 14]) {
      kill();
      await type(' D6o');
      // Drawn by a new server: the old one never heard of this note.
      await events(count);
      expect(await gaveUp().count()).toBe(0);
    }
    kill();
    await gaveUp().waitFor();
    expect(await gaveUp().textContent()).toMatch(/stopped several times.*your text is not affected.*the log says/);
    await editor.preview().locator('.message', { hasText: 'Restart the Language Server' }).waitFor();
    await editor.status(/medium hand/).waitFor({ state: 'detached' });
    expect(servers()).toEqual([]);
    await problems();
    await editor.focus();
    await type(AFTER);
    await saved(`${START + BEFORE + DURING} D6o D6o D6o${AFTER}`);
    // By now it would have promised to work it out.
    await editor.page.waitForTimeout(1000);
    expect(await editor.preview().locator('.working').textContent()).toBe('');
    await editor.picture('gave-up');
  });

  it('comes back when the message’s button is pressed, and knows what was written meanwhile', async () => {
    const { editor } = session;
    await gaveUp().getByRole('button', { name: 'Start It Again' }).click();
    await problems(SOUNDS.before, SOUNDS.during, SOUNDS.after);
    expect(servers().length).toBe(1);
    await events(15);
    await editor.note(14, 'pw-on').waitFor();
    await editor.status(/medium hand/).waitFor();
    await editor.hover('C#7o', /131 mm/);
    await editor.picture('started-again');
  });

  it('counts from none again after that, and starts anew at a command too', async () => {
    const { editor } = session;
    await editor.focus();
    kill();
    await type(' D6o');
    await events(16);
    await problems(SOUNDS.before, SOUNDS.during, SOUNDS.after);
    const dead = servers()[0];
    await editor.command('Passagework: Restart the Language Server');
    await another(dead);
    await problems(SOUNDS.before, SOUNDS.during, SOUNDS.after);
    // A problem fixed is gone for good: none is left over from a server that has died.
    await editor.cursorTo(4, START.split('\n')[3]!.length + 2);
    await editor.quickFix('E7');
    await problems(SOUNDS.during, SOUNDS.after);
  });

  it('says the same of a server that dies as soon as it is started, and comes back', async () => {
    const { editor } = session;
    await expect
      .poll(
        async () => {
          for (const pid of servers()) process.kill(pid, 'SIGKILL');
          return gaveUp().count();
        },
        { timeout: PATIENCE, interval: 20 },
      )
      .toBe(1);
    await editor.picture('dies-at-once');
    await gaveUp().getByRole('button', { name: 'Start It Again' }).click();
    await problems(SOUNDS.during, SOUNDS.after);
    await events(16);
    expect(servers().length).toBe(1);
    await editor.picture('started-after-all');
  });
});
