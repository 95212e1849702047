import { beforeEach, expect, it, vi } from 'vitest';
import { ResponseError } from 'vscode-jsonrpc';

vi.mock('vscode', () => import('./fake-vscode'));

import { ask } from '../../client/ask';
import { pin } from '../../client/commands/pin';
import { documents, Uri, window, workspace } from './fake-vscode';

const URI = 'file:///bay/tide.passage';
const CHOICE = { uri: URI, version: 3, passage: 0, event: 1, alternative: 0 };
const client = (sendRequest: () => Promise<unknown>) => ({ sendRequest, debug: vi.fn() }) as never;
const dead = () => client(() => Promise.reject(new Error('Client is not running')));

beforeEach(() => {
  vi.clearAllMocks();
  documents.clear();
  documents.set(URI, { uri: Uri.parse(URI), version: 3 });
});

it('a pin that meets a dead server says so and changes nothing', async () => {
  await expect(pin(dead(), CHOICE)).resolves.toBeUndefined();
  expect(window.showWarningMessage).toHaveBeenCalledWith(
    'The fingering is not written: the language server does not answer. It restarts by itself if it has stopped; then choose the fingering again.',
  );
  expect(workspace.applyEdit).not.toHaveBeenCalled();
});

it.each([
  ['an edit overtakes', client(() => Promise.reject(new ResponseError(-32801, 'The text has changed.')))],
  ['that is of an older version', client(() => Promise.resolve(null))],
])('a pin %s asks to choose again', async (_, overtaken) => {
  await pin(overtaken, CHOICE);
  expect(window.setStatusBarMessage).toHaveBeenCalledWith(
    'The passage has changed since: choose the fingering again.',
    expect.any(Number),
  );
  expect(window.showWarningMessage).not.toHaveBeenCalled();
});

it('an answer that comes is handed on as it is, even one of nothing', async () => {
  const words = { what: 'Nothing is done', again: 'try again' };
  expect(
    await ask(
      client(async () => 7),
      'passagework/x',
      {},
      words,
    ),
  ).toBe(7);
  expect(
    await ask(
      client(async () => null),
      'passagework/x',
      {},
      words,
    ),
  ).toBeNull();
});
