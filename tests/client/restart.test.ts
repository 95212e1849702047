import { beforeEach, describe, expect, it, vi } from 'vitest';

const { RESTART, DO_NOT_RESTART } = vi.hoisted(() => ({ RESTART: 2, DO_NOT_RESTART: 1 }));
vi.mock('vscode', () => import('./fake-vscode'));
vi.mock('vscode-languageclient', () => ({
  RevealOutputChannelOn: { Never: 4 },
  ErrorAction: { Continue: 1, Shutdown: 2 },
  CloseAction: { DoNotRestart: DO_NOT_RESTART, Restart: RESTART },
}));

import { clientOptions } from '../../client/language-client';
import { Restart } from '../../client/restart';
import { commands, Uri, window } from './fake-vscode';

/** A client whose library gives up at the second death, and what was said to people. */
function setUp(answer?: string) {
  window.showErrorMessage.mockReset().mockImplementation(async () => answer);
  const output = { error: vi.fn(), show: vi.fn() };
  const gaveUp = vi.fn();
  const shown = vi.fn();
  const client = {
    createDefaultErrorHandler: vi.fn(() => {
      let deaths = 0;
      return { error: () => ({ action: 2 }), closed: () => ({ action: ++deaths < 2 ? RESTART : DO_NOT_RESTART }) };
    }),
    error: (_message: string, _data?: unknown, show: unknown = true) => shown(show),
    isRunning: vi.fn(() => false),
    start: vi.fn(async () => {}),
    stop: vi.fn(async () => {}),
  };
  const restart = new Restart(output as never, gaveUp);
  const subscriptions: unknown[] = [];
  restart.register({ subscriptions } as never, client as never);
  return { restart, client, output, gaveUp, shown };
}
/** Lets what was pressed in a message take effect. */
const settled = () => new Promise((done) => setTimeout(done));

beforeEach(() => vi.clearAllMocks());

describe('a server that has died', () => {
  it('is started again by the library, and nobody is bothered', async () => {
    const { restart, gaveUp } = setUp();
    expect((await restart.closed()).action).toBe(RESTART);
    expect(gaveUp).not.toHaveBeenCalled();
    expect(window.showErrorMessage).not.toHaveBeenCalled();
  });

  it('too often is told of, once, and started again when the button is pressed', async () => {
    const { restart, client, gaveUp } = setUp('Start It Again');
    await restart.closed();
    expect((await restart.closed()).action).toBe(DO_NOT_RESTART);
    await settled();
    expect(gaveUp).toHaveBeenCalledExactlyOnceWith(expect.stringMatching(/was not started again.*Restart the Language Server/));
    expect(window.showErrorMessage).toHaveBeenCalledExactlyOnceWith(
      expect.stringMatching(/was not started again.*text is not affected/),
      'Start It Again',
      'Show the Log',
    );
    expect(client.start).toHaveBeenCalledOnce();
    // What happened before counts no longer.
    expect((await restart.closed()).action).toBe(RESTART);
  });

  it('stays as it is when the message is sent away, and its log can be seen', async () => {
    for (const answer of [undefined, 'Show the Log']) {
      const { restart, client, output } = setUp(answer);
      await restart.closed();
      await restart.closed();
      await settled();
      expect(client.start).not.toHaveBeenCalled();
      expect(output.show).toHaveBeenCalledTimes(answer ? 1 : 0);
    }
  });

  it('is not given up for messages that can’t be written to it any more', async () => {
    const { restart } = setUp();
    expect(restart.error()).toEqual({ action: 1 });
    expect((await restart.closed()).action).toBe(RESTART);
  });

  it('while it was starting is no failure of its own', async () => {
    const { restart, client, gaveUp } = setUp();
    client.start.mockImplementation(async () => {
      await restart.closed();
      throw new Error('pipe closed');
    });
    await restart.start();
    expect(gaveUp).not.toHaveBeenCalled();
    expect(window.showErrorMessage).not.toHaveBeenCalled();
  });
});

it('says why a server can’t be started at all, and offers to load the window again', async () => {
  const { restart, client, output, gaveUp } = setUp('Reload the Window');
  client.start.mockRejectedValue(new Error('no such file'));
  await restart.start();
  await settled();
  expect(output.error).toHaveBeenCalledWith(expect.any(String), new Error('no such file'));
  expect(gaveUp).toHaveBeenCalledOnce();
  expect(commands.executeCommand).toHaveBeenCalledExactlyOnceWith('workbench.action.reloadWindow');
});

it('ends the server that runs before it starts another at a command', async () => {
  const { client } = setUp();
  client.isRunning.mockReturnValue(true);
  await commands.registered.get('passagework.restart')!();
  expect(client.stop.mock.invocationCallOrder[0]).toBeLessThan(client.start.mock.invocationCallOrder[0]!);
});

it('keeps the library’s own messages in the log', () => {
  const { client, shown } = setUp();
  client.error('couldn’t create connection', undefined, 'force');
  expect(shown).toHaveBeenCalledExactlyOnceWith(false);
});

it('is asked by the library, which would otherwise decide by itself', () => {
  const { restart, output } = setUp();
  const options = clientOptions({ extensionUri: Uri.parse('file:///extension') } as never, output as never, restart, {});
  expect(options.errorHandler).toBe(restart);
  expect(options.initializationFailedHandler?.(undefined as never)).toBe(false);
  // A count of 0 would tell it to give up at once.
  expect(options.connectionOptions?.maxRestartCount).toBeUndefined();
  expect(options.documentSelector).toContainEqual({ language: 'passage' });
});
