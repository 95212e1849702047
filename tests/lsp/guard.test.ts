import { describe, expect, it } from 'vitest';
import { CancellationTokenSource, ResponseError } from 'vscode-jsonrpc/node';
import { createGuard } from '../../server/lsp/guard';
import { Cancelled } from '../../server/workspace/pace';

describe('guard', () => {
  const log: string[] = [];
  const guard = createGuard((message) => log.push(message));
  const { token } = new CancellationTokenSource();

  it('turns a fault into an answer and a line of the log', async () => {
    for (const work of [
      () => {
        throw new Error('at once');
      },
      async () => {
        throw new TypeError('later');
      },
    ]) {
      log.length = 0;
      const answer = await guard.answer('textDocument/hover', token, work);
      expect(answer).toBeInstanceOf(ResponseError);
      expect(log).toEqual([expect.stringMatching(/^textDocument\/hover failed; everything else goes on\. .*Error: /)]);
    }
    expect(await guard.answer('textDocument/hover', token, () => 5)).toBe(5);
  });

  it('does the same for notifications', async () => {
    log.length = 0;
    guard.take('textDocument/didChange', () => {
      throw new Error('at once');
    });
    guard.take('textDocument/didChange', async () => {
      throw new Error('later');
    });
    await expect.poll(() => log.length).toBe(2);
  });

  it('tells a client that the text has moved on, and keeps that out of the log', async () => {
    log.length = 0;
    const overtaken = (method: string) =>
      guard.answer(method, token, () => {
        throw new Cancelled();
      });
    expect(await overtaken('textDocument/hover')).toMatchObject({ code: -32801 });
    expect(await overtaken('textDocument/diagnostic')).toMatchObject({ code: -32802, data: { retriggerRequest: true } });
    expect(log).toEqual([]);
  });

  it('gives up as soon as the client does', async () => {
    const source = new CancellationTokenSource();
    const endless = guard.answer('textDocument/hover', source.token, () => new Promise(() => undefined));
    source.cancel();
    expect(await endless).toMatchObject({ code: -32800 });
    expect(await guard.answer('textDocument/hover', source.token, () => 5)).toMatchObject({ code: -32800 });
  });
});
