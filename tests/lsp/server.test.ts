import { afterEach, describe, expect, it } from 'vitest';
import type { CodeAction, CodeLens, Hover, InlayHint, TextDocumentEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { PinReply } from '../../server/protocol/messages';
import type { Scene, SceneAlternative } from '../../server/protocol/scene';
import { caret } from '../support/caret';
import { type LanguageClient, PLAIN, PULLING, startClient, startServer } from '../support/language-client';
import { fingerings, reading } from '../support/reading';

const URI = 'untitled:harbour.passage';

let client: LanguageClient | undefined;
afterEach(async () => {
  await client?.stop();
  client = undefined;
});

async function opened(
  fixture: string,
  start: Parameters<typeof startClient>[0] = { capabilities: PULLING, options: { commands: true } },
) {
  const { text, at } = caret(fixture);
  const made = await startClient(start);
  client = made;
  await made.open(URI, text);
  const document = TextDocument.create(URI, 'passage', 1, text);
  const position = document.positionAt(at);
  const here = { textDocument: { uri: URI }, position };
  const range = { start: position, end: position };
  return { made, text, document, position, here, range };
}

describe('the built server', () => {
  it('tells what it can do, and offers to be pulled only where the client pulls', async () => {
    client = await startClient({ capabilities: PLAIN });
    const { capabilities } = client.initialized;
    expect(capabilities).toMatchObject({
      positionEncoding: 'utf-16',
      hoverProvider: true,
      renameProvider: { prepareProvider: true },
    });
    expect(capabilities.diagnosticProvider).toBeUndefined();
    await client.stop();
    client = await startClient({ capabilities: PULLING });
    expect(client.initialized.capabilities.diagnosticProvider).toBeDefined();
  });

  it('explains a note under the pointer, by UTF-16 positions', async () => {
    const { made, here } = await opened('> \u{1F3BB}\n/* */ 1/4 D6o^ [III]'.replace('/* */ ', ''));
    const hover = await made.request<Hover>('textDocument/hover', here);
    expect(hover.range).toEqual({ start: { line: 1, character: 4 }, end: { line: 1, character: 7 } });
    expect(hover.contents).toMatchObject({ kind: 'markdown', value: expect.stringContaining('command:passagework.pin?') });
  });

  it('tells a plain terminal the same without pictures, links or marks', async () => {
    const { made, here } = await opened('1/4 D6o^', { capabilities: PLAIN });
    const { contents } = await made.request<Hover>('textDocument/hover', here);
    expect(contents).toMatchObject({ kind: 'plaintext' });
    const { value } = contents as { value: string };
    expect(value).toMatch(/^D6 natural harmonic/);
    expect(value).toContain('Other ways:');
    expect(value).not.toMatch(/data:|command:|\*\*|\]\(/);
  });

  it('cures a problem by an edit of this very version', async () => {
    const { made, range, text, document } = await opened('1/4 d6^o');
    const found = await made.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri: URI },
      range,
      context: { diagnostics: [], only: ['quickfix'] },
    });
    const cure = found.find(({ title }) => title === 'Write D6o');
    expect(cure).toMatchObject({ kind: 'quickfix', diagnostics: [{ code: 'pitch-letter' }] });
    const [change] = (cure?.edit?.documentChanges ?? []) as TextDocumentEdit[];
    expect(change?.textDocument).toEqual({ uri: URI, version: 1 });
    expect(TextDocument.applyEdits(document, (change?.edits ?? []) as never)).toBe('1/4 D6o');
    expect(text).toBe('1/4 d6o');
    for (const { kind } of found) expect(kind).toBe('quickfix');
  });

  it('writes a chosen alternative into the text, and nothing for a stale version', async () => {
    const { made, text } = await opened('1/4 D6o^ E6o');
    const scene = await made.request<Scene>('passagework/scene', { uri: URI });
    expect(scene).toMatchObject({ uri: URI, version: 1 });
    const event = { uri: URI, version: 1, passage: 0, event: 0 };
    const others = await made.request<readonly SceneAlternative[]>('passagework/alternatives', event);
    const wanted = others[2];
    const pin = { ...event, alternative: wanted?.index };
    const reply = await made.request<PinReply>('passagework/pin', pin);
    const edits = reply.edits.map(({ start, end, text: newText }) => ({ range: { start, end }, newText }));
    const pinned = TextDocument.applyEdits(TextDocument.create(URI, 'passage', 1, text), edits);
    expect(pinned).toMatch(/^1\/4 D6o \[I{1,3}V? .*\] E6o$/);
    const [note] = wanted?.notes ?? [];
    const fingers = note?.stop ? `${note.stop.finger}-${note.touch?.finger}` : note?.touch?.finger;
    expect(fingerings(reading(pinned))[0]).toMatch(new RegExp(`^${note?.string} .*${fingers}$`));

    await made.change(URI, 2, { text: pinned });
    expect(await made.request('passagework/pin', pin)).toBeNull();
    expect(await made.request('passagework/alternatives', event)).toBeNull();
  });

  it('shows fingerings in the text and facts above a passage', async () => {
    const { made } = await opened('passage: Mole^\n1/4 D6o E6o');
    const hints = await made.request<InlayHint[]>('textDocument/inlayHint', {
      textDocument: { uri: URI },
      range: { start: { line: 0, character: 0 }, end: { line: 2, character: 0 } },
    });
    expect(hints.map(({ position }) => position)).toEqual([
      { line: 1, character: 7 },
      { line: 1, character: 11 },
    ]);
    const lenses = await made.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri: URI } });
    expect(lenses.map(({ command }) => command?.command)).toEqual([
      'passagework.openPreview',
      'passagework.openPreview',
      'passagework.reveal',
    ]);
  });

  it.each<[string, string, object]>([
    ['textDocument/completion', '1/4 D6o ^', { isIncomplete: false }],
    ['textDocument/signatureHelp', 'D6o [II ^]', { activeParameter: 1 }],
    [
      'textDocument/definition',
      'motif wave = D5\nwa^ve',
      [{ uri: URI, range: { start: { line: 0, character: 6 }, end: { line: 0, character: 10 } } }],
    ],
    ['textDocument/prepareRename', 'motif wave = D5\nwa^ve', { placeholder: 'wave' }],
    ['textDocument/documentHighlight', 'D5^ E5 D5', [{ kind: 2 }, { kind: 2 }]],
    [
      'textDocument/documentSymbol',
      'passage: Mole^\nD5',
      [{ name: 'Mole', selectionRange: { start: { line: 0, character: 9 }, end: { line: 0, character: 13 } } }],
    ],
    ['textDocument/foldingRange', 'passage: Mole^\nD5', [{ startLine: 0, endLine: 1 }]],
    ['textDocument/semanticTokens/full', 'tempo: 1/4 = 60^', { data: [0, 0, 5, 0, 0, 0, 7, 8, 1, 0] }],
    [
      'textDocument/formatting',
      '1/4   D5^',
      [{ range: { start: { line: 0, character: 3 }, end: { line: 0, character: 6 } }, newText: ' ' }],
    ],
  ])('answers %s', async (method, fixture, wanted) => {
    const { made, here, position } = await opened(fixture);
    const reply = await made.request<object>(method, {
      ...here,
      positions: [position],
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(reply).toMatchObject(wanted);
  });

  it('renames a motif, or says why not', async () => {
    const { made, here, document } = await opened('motif wave = D5\nwa^ve');
    const edit = await made.request<{ documentChanges: TextDocumentEdit[] }>('textDocument/rename', {
      ...here,
      newName: 'swell',
    });
    expect(TextDocument.applyEdits(document, (edit.documentChanges[0]?.edits ?? []) as never)).toBe('motif swell = D5\nswell');
    await expect(made.request('textDocument/rename', { ...here, newName: 'D5' })).rejects.toMatchObject({
      code: -32803,
      message: expect.stringContaining('cannot name a motif'),
    });
  });

  it('gives nested selections', async () => {
    const { made, position } = await opened('1/4 slur(D6o^ E6o)');
    const [first] = await made.request<{ range: object; parent: { range: object } }[]>('textDocument/selectionRange', {
      textDocument: { uri: URI },
      positions: [position],
    });
    expect(first?.range).toEqual({ start: { line: 0, character: 9 }, end: { line: 0, character: 12 } });
    expect(first?.parent.range).toEqual({ start: { line: 0, character: 4 }, end: { line: 0, character: 17 } });
  });

  it('links problems to their pages where it is told where those are', async () => {
    const { made } = await opened('tempo: 1/4 = 60\nwobble: 3\nD5^', {
      capabilities: PULLING,
      options: { rulePages: 'https://pages.example/rules' },
    });
    const [first] = await made.pull(URI);
    expect(first).toMatchObject({
      code: 'unknown-setting',
      codeDescription: { href: 'https://pages.example/rules/unknown-setting.md' },
    });
  });

  it('forgets a closed document', async () => {
    const pusher = await startClient({ capabilities: PLAIN });
    client = pusher;
    await pusher.open(URI, 'H5');
    expect(await pusher.problems(URI, 1)).toHaveLength(1);
    await pusher.close(URI);
    expect(
      await pusher.request('textDocument/hover', { textDocument: { uri: URI }, position: { line: 0, character: 0 } }),
    ).toBeNull();
    expect(pusher.pushed.at(-1)).toMatchObject({ uri: URI, diagnostics: [] });
    await pusher.open(URI, 'D5', 1);
    await expect.poll(() => pusher.pushed.at(-1)).toMatchObject({ uri: URI, version: 1, diagnostics: [] });
  });
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
      const scene = await client?.request<Scene>('passagework/scene', { uri });
      return [scene?.passages[0]?.board.family, scene?.passages[0]?.hand];
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
});

describe('what goes wrong', () => {
  it('survives faulty messages of every kind and goes on answering', async () => {
    const { made, here } = await opened('1/4 D6o^');
    const send = (method: string, params: unknown) =>
      made.request(method, params).then(
        () => 'answered',
        () => 'refused',
      );
    expect(await send('textDocument/hover', {})).toBe('refused');
    expect(await send('textDocument/hover', { textDocument: { uri: 5 } })).toBe('refused');
    expect(await send('textDocument/hover', { textDocument: { uri: URI } })).toBe('refused');
    expect(await send('textDocument/codeAction', { textDocument: { uri: URI }, range: null, context: null })).toBe('refused');
    expect(await send('textDocument/rename', { ...here, newName: 42 })).toBe('refused');
    expect(await send('passagework/pin', { uri: URI, version: 1 })).toBe('answered');
    expect(await send('passagework/nonsense', {})).toBe('refused');
    await made.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: 'file:///never-opened', version: 2 },
      contentChanges: [{ text: 'x' }],
    });
    await made.connection.sendNotification('textDocument/didChange', { textDocument: { uri: URI, version: 2 } });
    await made.connection.sendNotification('textDocument/didOpen', {});
    await made.connection.sendNotification('passagework/nonsense', {});
    const far = { textDocument: { uri: URI }, position: { line: 999, character: 999 } };
    expect(await send('textDocument/hover', far)).toBe('answered');
    made.process.stdin.write('Content-Length: 13\r\n\r\n{"jsonrpc": }');
    expect(await made.request('textDocument/hover', here)).toMatchObject({ contents: { kind: 'markdown' } });
    expect(made.process.exitCode).toBeNull();
  });

  it('answers a cancelled request as cancelled', async () => {
    const { made, here } = await opened('1/4 D6o^');
    const id = 4711;
    const answer = new Promise<{ error?: { code: number } }>((done) => {
      made.process.stdout.on('data', (chunk: Buffer) => {
        const found = /\{[^{}]*"id":4711,"error":(\{.*\})\}/.exec(chunk.toString());
        if (found) done({ error: JSON.parse(found[1] ?? '{}') });
      });
    });
    const frame = (message: object) => {
      const body = JSON.stringify({ jsonrpc: '2.0', ...message });
      return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
    };
    await made.change(URI, 2, { text: '1/4 D6o E6o' });
    made.process.stdin.write(
      frame({ id, method: 'textDocument/hover', params: here }) + frame({ method: '$/cancelRequest', params: { id } }),
    );
    expect((await answer).error?.code).toBe(-32800);
  });

  it('refuses questions before it is initialized, and ends as it should', async () => {
    const child = startServer();
    let heard = '';
    child.stdout.on('data', (chunk: Buffer) => {
      heard += chunk.toString();
    });
    const body = JSON.stringify({ jsonrpc: '2.0', id: 1, method: 'textDocument/hover', params: { textDocument: { uri: URI } } });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
    await expect.poll(() => heard).toContain('-32002');
    const code = new Promise((done) => child.once('exit', done));
    child.stdin.end();
    expect(await code).not.toBeNull();
  });

  it('ends with 0 after shutdown and exit', async () => {
    const short = await startClient();
    expect(await short.stop()).toBe(0);
  });
});
