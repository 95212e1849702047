import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

vi.mock('vscode', () => import('./fake-vscode'));

import { Scenes } from '../../client/scenes';
import { closing, Uri } from './fake-vscode';

const URI = 'file:///harbour.passage';

/** A server whose answers come when the test says. */
function server() {
  const pending: ((version: number | null) => Promise<void>)[] = [];
  const sendRequest = vi.fn(
    (_name: string, { uri }: { uri: string }) =>
      new Promise((answer) => {
        pending.push(async (version) => {
          answer(version === null ? null : { stamp: `s${version}`, scene: { uri, version, passages: [] } });
          await vi.advanceTimersByTimeAsync(0);
        });
      }),
  );
  const scenes = new Scenes({ isRunning: () => true, sendRequest } as never);
  const changed = vi.fn();
  scenes.onDidChange(changed);
  return { scenes, sendRequest, changed, answer: (version: number | null) => pending.shift()!(version) };
}

const rest = () => vi.advanceTimersByTimeAsync(1000);

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('the scenes', () => {
  it('asks for no document that nothing shows', async () => {
    const { scenes, sendRequest } = server();
    scenes.solved(URI, 1);
    await rest();
    expect(sendRequest).not.toHaveBeenCalled();
  });

  it('tells of a scene as soon as it is there', async () => {
    const { scenes, changed, answer } = server();
    scenes.watch(URI);
    await rest();
    await answer(3);
    expect(changed).toHaveBeenCalledExactlyOnceWith(URI);
    expect(scenes.get(URI)?.version).toBe(3);
  });

  it('never goes back to an older version', async () => {
    const { scenes, changed, sendRequest, answer } = server();
    scenes.watch(URI);
    await rest();
    await answer(3);
    await rest();
    scenes.solved(URI, 2);
    await rest();
    expect(sendRequest).toHaveBeenCalledTimes(1);
    scenes.solved(URI, 4);
    await rest();
    await answer(2);
    expect(changed).toHaveBeenCalledTimes(1);
    expect(scenes.get(URI)?.version).toBe(3);
  });

  it('counts anew after the document was closed', async () => {
    const { scenes, answer } = server();
    scenes.watch(URI);
    await rest();
    await answer(9);
    await rest();
    closing.fire({ uri: Uri.parse(URI), version: 9 });
    scenes.solved(URI, 1);
    await rest();
    await answer(1);
    expect(scenes.get(URI)?.version).toBe(1);
  });

  it('keeps the last scene while the server knows none', async () => {
    const { scenes, answer } = server();
    scenes.watch(URI);
    await rest();
    await answer(2);
    await rest();
    scenes.solved(URI, 3);
    await rest();
    await answer(null);
    expect(scenes.get(URI)?.version).toBe(2);
  });

  it('stops asking when the last one that shows it is gone', async () => {
    const { scenes, sendRequest, answer } = server();
    const first = scenes.watch(URI);
    const second = scenes.watch(URI);
    await rest();
    await answer(1);
    await rest();
    first.dispose();
    first.dispose();
    scenes.solved(URI, 2);
    await rest();
    expect(sendRequest).toHaveBeenCalledTimes(2);
    second.dispose();
    scenes.solved(URI, 3);
    await rest();
    expect(sendRequest).toHaveBeenCalledTimes(2);
    expect(scenes.get(URI)).toBeUndefined();
  });

  it('shows none while there is no server, and again once one has solved', async () => {
    const { scenes, changed, answer } = server();
    const failed = vi.fn();
    scenes.onDidFail(failed);
    scenes.watch(URI);
    await rest();
    await answer(3);
    scenes.fail('It was not started again.');
    expect(failed).toHaveBeenCalledExactlyOnceWith('It was not started again.');
    expect(scenes.get(URI)).toBeUndefined();
    // The same version: nobody has typed.
    scenes.solved(URI, 3);
    await rest();
    await answer(3);
    expect(scenes.failure).toBeUndefined();
    expect(scenes.get(URI)?.version).toBe(3);
    expect(changed).toHaveBeenCalledTimes(2);
  });
});
