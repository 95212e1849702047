import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

vi.mock('vscode', () => import('./fake-vscode'));

import { editPlayer } from '../../client/commands/edit-player';
import { PlayerFiles, playerUri } from '../../client/players';
import type { ReadPlayerReply } from '../../server/protocol/messages';
import { closing, disk, documents, editing, FileSystemError, type Range, Uri, watchers, workspace } from './fake-vscode';

const PASSAGE = 'file:///coast/a.passage';
const INES = 'file:///coast/ines.player';
const asked = { uri: PASSAGE, file: 'ines.player' };

function start() {
  const sendNotification = vi.fn(async () => undefined);
  let read: ((params: typeof asked) => Promise<ReadPlayerReply>) | undefined;
  const client = {
    isRunning: () => true,
    sendNotification,
    onRequest: (_: string, handler: NonNullable<typeof read>) => {
      read = handler;
      return { dispose: () => undefined };
    },
  };
  const files = new PlayerFiles(client as never);
  return { files, sendNotification, read: (params = asked) => read!(params) };
}

const rest = () => vi.advanceTimersByTimeAsync(1000);

beforeEach(() => {
  vi.useFakeTimers();
  disk.clear();
  documents.clear();
  watchers.length = 0;
});
afterEach(() => {
  vi.useRealTimers();
});

describe('player files of the client', () => {
  it('hands over a file of the disk, or what stands in its editor, saved or not', async () => {
    const { read } = start();
    expect(await read()).toEqual({ missing: 'there is no such file' });
    disk.set(INES, 'name: Ines\n');
    expect(await read()).toEqual({ text: 'name: Ines\n' });
    documents.set(INES, { uri: Uri.parse(INES), version: 1, getText: () => 'name: Typing' });
    expect(await read()).toEqual({ text: 'name: Typing' });
  });

  it('says why a file can’t be read', async () => {
    const { read } = start();
    disk.set(INES, 'x'.repeat(5 * 1024 * 1024));
    expect(await read()).toEqual({ missing: 'it is too large to be a player file' });
    vi.spyOn(workspace.fs, 'stat').mockRejectedValueOnce(new FileSystemError('locked', 'NoPermissions'));
    expect(await read()).toEqual({ missing: "it can't be read (locked)" });
  });

  it('looks nowhere but below the passage’s folder', () => {
    const at = (file: string) => playerUri({ uri: PASSAGE, file })?.toString();
    expect(at('players/ines.player')).toBe('file:///coast/players/ines.player');
    expect(at('../../etc/ines.player')).toBe('file:///coast/etc/ines.player');
    expect(at('/etc/ines.player')).toBe('file:///coast/etc/ines.player');
  });

  it('tells the server of changes of files that passages name, and of no others, once for a burst of typing', async () => {
    const { read, sendNotification } = start();
    await read();
    for (let key = 0; key < 20; key++) editing.fire({ document: { uri: Uri.parse(INES), version: key } });
    editing.fire({ document: { uri: Uri.parse('file:///coast/other.player'), version: 1 } });
    await rest();
    expect(sendNotification.mock.calls.length).toBeLessThanOrEqual(2);
    expect(sendNotification).toHaveBeenLastCalledWith('passagework/playerChanged', asked);
    sendNotification.mockClear();
    watchers[0]!.created.fire(Uri.parse(INES));
    await rest();
    expect(sendNotification).toHaveBeenCalledTimes(1);
  });

  it('watches each file once, and no longer than a passage that names it is open', async () => {
    const { read, sendNotification, files } = start();
    await read();
    await read({ uri: 'file:///coast/b.passage', file: 'ines.player' });
    expect(watchers).toHaveLength(1);
    expect(files.namedBy(PASSAGE).map(String)).toEqual([INES]);
    closing.fire({ uri: Uri.parse(PASSAGE), version: 1 });
    expect(watchers[0]!.disposed).toBe(false);
    closing.fire({ uri: Uri.parse('file:///coast/b.passage'), version: 1 });
    expect(watchers[0]!.disposed).toBe(true);
    editing.fire({ document: { uri: Uri.parse(INES), version: 9 } });
    await rest();
    expect(sendNotification).not.toHaveBeenCalled();
  });
});

describe('changing a player file', () => {
  const change = { kind: 'attempt', attempt: 'III 1/5', clean: true } as const;
  const reply = { start: { line: 0, character: 9 }, end: { line: 0, character: 16 }, text: '5 of 11' };

  function document(over: object = {}) {
    const made = {
      uri: Uri.parse(INES),
      version: 1,
      isDirty: false,
      isUntitled: false,
      text: 'III 1/5: 4 of 10',
      getText: (range?: Range) => made.text.slice(range?.start.character ?? 0, range?.end.character),
      // All of it is one line.
      offsetAt: ({ character }: { character: number }) => character,
      positionAt: (character: number) => ({ line: 0, character }),
      lineAt: () => ({ text: made.text }),
      save: vi.fn(),
      ...over,
    };
    documents.set(INES, made);
    workspace.applyEdit.mockImplementation(async ({ replaced: [edit] }) => {
      const { start, end } = edit!.range;
      made.text = made.text.slice(0, start.character) + edit!.text + made.text.slice(end.character);
      return true;
    });
    return made;
  }

  it('applies the server’s edit, and saves what was saved before', async () => {
    const made = document();
    const sendRequest = vi.fn(async () => reply);
    const edit = await editPlayer({ sendRequest } as never, made.uri as never, change);
    expect(edit?.line).toBe('III 1/5: 5 of 11');
    expect(sendRequest).toHaveBeenCalledWith('passagework/editPlayer', { text: 'III 1/5: 4 of 10', change });
    expect(workspace.applyEdit.mock.lastCall![0].replaced[0]).toMatchObject({
      text: '5 of 11',
      range: { start: { line: 0, character: 9 } },
    });
    expect(made.save).toHaveBeenCalledTimes(1);
    const unsaved = document({ isDirty: true });
    await editPlayer({ sendRequest } as never, made.uri as never, change);
    expect(unsaved.save).not.toHaveBeenCalled();
  });

  it('asks again where somebody typed in between, and gives up where there is no such line', async () => {
    const made = document();
    const sendRequest = vi
      .fn(async () => reply)
      .mockImplementationOnce(async () => {
        documents.get(INES)!.version++;
        return reply;
      });
    expect((await editPlayer({ sendRequest } as never, made.uri as never, change))?.line).toBe('III 1/5: 5 of 11');
    expect(sendRequest).toHaveBeenCalledTimes(2);
    expect(await editPlayer({ sendRequest: async () => null } as never, made.uri as never, change)).toBeUndefined();
  });

  it('takes a change back, once and not where somebody has written there since', async () => {
    const made = document();
    const sendRequest = vi.fn(async () => reply);
    const first = await editPlayer({ sendRequest } as never, made.uri as never, change);
    expect(await first?.undo()).toBe(true);
    expect([made.text, made.save.mock.calls.length]).toEqual(['III 1/5: 4 of 10', 2]);
    expect(await first?.undo()).toBe(false);
    const second = await editPlayer({ sendRequest } as never, made.uri as never, change);
    made.text = 'III 1/5: 6 of 12 // a new string';
    expect(await second?.undo()).toBe(false);
    expect(made.text).toBe('III 1/5: 6 of 12 // a new string');
  });

  it('makes changes one after the other, and goes on after one that failed', async () => {
    const order: string[] = [];
    document();
    const noted = (name: string) => {
      order.push(name);
      return null;
    };
    const slow = { sendRequest: () => new Promise((done) => setTimeout(() => done(noted('first')), 50)) };
    const failing = { sendRequest: async () => Promise.reject(new Error('gone')) };
    const last = { sendRequest: async () => noted('last') };
    const uri = Uri.parse(INES) as never;
    const all = Promise.allSettled([
      editPlayer(slow as never, uri, change),
      editPlayer(failing as never, uri, change),
      editPlayer(last as never, uri, change),
    ]);
    await rest();
    expect((await all).map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
    expect(order).toEqual(['first', 'last']);
  });
});
