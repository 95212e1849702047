import { afterEach, describe, expect, it } from 'vitest';
import type { Scene } from '../../server/protocol/scene';
import { type LanguageClient, PLAIN, PULLING, startClient } from '../support/language-client';

const URI = 'untitled:harbour.passage';

let client: LanguageClient | undefined;
afterEach(async () => {
  await client?.stop();
  client = undefined;
});

describe('settings', () => {
  it('holds each document to the settings of its own folder', async () => {
    client = await startClient({
      capabilities: PULLING,
      settings: (uri) =>
        uri.startsWith('file:///violas/') ? { instrument: 'viola', hand: 'large' } : { instrument: 7, hand: 'small' },
    });
    const instrumentOf = async (uri: string) => {
      await client?.open(uri, 'D5');
      const scene = await client?.request<{ scene: Scene }>('passagework/scene', { uri });
      return [scene?.scene.passages[0]?.board.family, scene?.scene.passages[0]?.hand];
    };
    expect(await instrumentOf('file:///violas/a.passage')).toEqual(['viola', 'large']);
    expect(await instrumentOf('file:///violins/b.passage')).toEqual(['violin', 'small']);
  });

  it('takes a change of settings up at once, from clients of either kind', async () => {
    let rules: Record<string, string> = {};
    const pulling = await startClient({ capabilities: PULLING, settings: () => ({ rules }) });
    client = pulling;
    const lone = 'D5 G#6o [III third] D5';
    await pulling.open(URI, lone);
    const codes = async () => (await pulling.pull(URI)).map(({ code }) => code);
    await expect.poll(codes).toContain('lone-third');
    rules = { 'lone-third': 'off' };
    await pulling.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
    await expect.poll(codes).not.toContain('lone-third');
    await pulling.stop();

    const pushed = await startClient({ capabilities: PLAIN });
    client = pushed;
    await pushed.open(URI, lone);
    expect((await pushed.problems(URI, 1)).map(({ code }) => code)).toContain('lone-third');
    await pushed.connection.sendNotification('workspace/didChangeConfiguration', { settings: { passagework: { rules } } });
    await expect.poll(() => pushed.pushed.at(-1)?.diagnostics.map(({ code }) => code)).not.toContain('lone-third');
  });

  it('says which setting cannot be read', async () => {
    client = await startClient({ capabilities: PULLING, settings: () => ({ hand: 'gigantic' }) });
    const shown: string[] = [];
    client.connection.onNotification('window/showMessage', ({ message }: { message: string }) => void shown.push(message));
    await client.open(URI, 'D5');
    await client.pull(URI);
    expect(shown).toEqual([expect.stringContaining('passagework.hand')]);
  });

  it('does without the settings of a client that never sends them', async () => {
    client = await startClient({ capabilities: PULLING, settings: () => new Promise(() => undefined) });
    await client.open(URI, 'H5');
    await client.solved(URI, 1);
    expect((await client.pull(URI)).map(({ code }) => code)).toEqual(['pitch-letter']);
    expect(client.log).toEqual([expect.stringContaining('the defaults hold')]);
  });
});
