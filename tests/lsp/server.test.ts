import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { CodeAction, CodeLens, Hover, InlayHint, TextDocumentEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { PinReply } from '../../server/protocol/messages';
import type { Scene, SceneAlternative } from '../../server/protocol/scene';
import { caret } from '../support/caret';
import { type LanguageClient, PLAIN, PULLING, startClient } from '../support/language-client';
import { fingerings, reading } from '../support/reading';

/** Of the document of the running test; every test has its own, for they share a server. */
let uri = '';
let count = 0;
let shared: LanguageClient;
/** A server that one test has started for itself. */
let own: LanguageClient | undefined;

beforeAll(async () => {
  shared = await startClient({ capabilities: PULLING, options: { commands: true } });
});
beforeEach(() => {
  uri = `untitled:harbour-${++count}.passage`;
});
afterEach(async () => {
  await own?.stop();
  own = undefined;
});
afterAll(async () => {
  await shared.stop();
});

async function opened(fixture: string, start?: Parameters<typeof startClient>[0]) {
  const { text, at } = caret(fixture);
  if (start) own = await startClient(start);
  const made = own ?? shared;
  await made.open(uri, text);
  const document = TextDocument.create(uri, 'passage', 1, text);
  const position = document.positionAt(at);
  const here = { textDocument: { uri }, position };
  const range = { start: position, end: position };
  return { made, text, document, position, here, range };
}

describe('the built server', () => {
  it('tells what it can do, and offers to be pulled only where the client pulls', async () => {
    own = await startClient({ capabilities: PLAIN });
    const { capabilities } = own.initialized;
    expect(capabilities).toMatchObject({
      positionEncoding: 'utf-16',
      hoverProvider: true,
      renameProvider: { prepareProvider: true },
    });
    expect(capabilities.diagnosticProvider).toBeUndefined();
    expect(shared.initialized.capabilities.diagnosticProvider).toBeDefined();
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

  it('fixes a problem by an edit of this very version', async () => {
    const { made, range, text, document } = await opened('1/4 d6^o');
    const found = await made.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri },
      range,
      context: { diagnostics: [], only: ['quickfix'] },
    });
    const fix = found.find(({ title }) => title === 'Write D6o');
    expect(fix).toMatchObject({ kind: 'quickfix', diagnostics: [{ code: 'pitch-letter' }] });
    const [change] = (fix?.edit?.documentChanges ?? []) as TextDocumentEdit[];
    expect(change?.textDocument).toEqual({ uri, version: 1 });
    expect(TextDocument.applyEdits(document, (change?.edits ?? []) as never)).toBe('1/4 D6o');
    expect(text).toBe('1/4 d6o');
    for (const { kind } of found) expect(kind).toBe('quickfix');
  });

  it('writes a chosen alternative into the text, and nothing for a stale version', async () => {
    const { made, text } = await opened('1/4 D6o^ E6o');
    const whole = await made.request<{ stamp: string; scene: Scene }>('passagework/scene', { uri });
    expect(whole.scene).toMatchObject({ uri, version: 1 });
    const event = { uri, version: 1, passage: 0, event: 0 };
    const others = await made.request<readonly SceneAlternative[]>('passagework/alternatives', event);
    const wanted = others[2];
    const pin = { ...event, alternative: wanted?.index };
    const reply = await made.request<PinReply>('passagework/pin', pin);
    const edits = reply.edits.map(({ start, end, text: newText }) => ({ range: { start, end }, newText }));
    const pinned = TextDocument.applyEdits(TextDocument.create(uri, 'passage', 1, text), edits);
    expect(pinned).toMatch(/^1\/4 D6o \[I{1,3}V? .*\] E6o$/);
    const [note] = wanted?.notes ?? [];
    const fingers = note?.stop ? `${note.stop.finger}-${note.touch?.finger}` : note?.touch?.finger;
    expect(fingerings(reading(pinned))[0]).toMatch(new RegExp(`^${note?.string} .*${fingers}$`));

    await made.change(uri, 2, { text: pinned });
    expect(await made.request('passagework/pin', pin)).toBeNull();
    expect(await made.request('passagework/alternatives', event)).toBeNull();

    // Who has the scene is told what has changed in it; who has another one, or says of none, gets all of it.
    expect(await made.request('passagework/scene', { uri, have: 'another' })).toMatchObject({ scene: { version: 2 } });
    const again = await made.request<{ stamp: string }>('passagework/scene', { uri });
    expect(again).toMatchObject({ scene: { version: 2 } });
    expect(await made.request('passagework/scene', { uri, have: whole.stamp })).toMatchObject({ scene: { version: 2 } });
    const last = await made.request<{ stamp: string }>('passagework/scene', { uri });
    await made.change(uri, 3, { text });
    const told = await made.request('passagework/scene', { uri, have: last.stamp });
    expect(told).toMatchObject({ change: { from: 2, version: 3 } });
  });

  it('shows fingerings in the text and facts above a passage', async () => {
    const { made } = await opened('passage: Mole^\n1/4 D6o E6o');
    const hints = await made.request<InlayHint[]>('textDocument/inlayHint', {
      textDocument: { uri },
      range: { start: { line: 0, character: 0 }, end: { line: 2, character: 0 } },
    });
    expect(hints.map(({ position }) => position)).toEqual([
      { line: 1, character: 7 },
      { line: 1, character: 11 },
    ]);
    // An editor may wrap a line at a space or after a slash, and would do so inside a hint.
    expect(hints.filter(({ label }) => /[ /]/.test(String(label)))).toEqual([]);
    // Written as it is shown, it is read.
    const pasted = hints.map(({ label }, note) => `${['D6o', 'E6o'][note]} [${label}]`).join(' ');
    expect(reading(`1/4 ${pasted}`).problems).toEqual([]);
    const lenses = await made.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri } });
    expect(lenses.map(({ command }) => command?.command)).toEqual(['passagework.openPreview', 'passagework.reveal']);
    expect(lenses.every(({ command }) => command?.tooltip)).toBe(true);
  });

  it.each<[string, string, object]>([
    ['textDocument/completion', '1/4 D6o ^', { isIncomplete: false }],
    ['textDocument/signatureHelp', 'D6o [II ^]', { activeParameter: 1 }],
    [
      'textDocument/definition',
      'motif wave = D5\nwa^ve',
      [{ range: { start: { line: 0, character: 6 }, end: { line: 0, character: 10 } } }],
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
      textDocument: { uri },
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
    const [first] = await made.pull(uri);
    expect(first).toMatchObject({
      code: 'unknown-setting',
      codeDescription: { href: 'https://pages.example/rules/unknown-setting.md' },
    });
  });

  it('forgets a closed document', async () => {
    const pusher = await startClient({ capabilities: PLAIN });
    own = pusher;
    await pusher.open(uri, 'H5');
    expect(await pusher.problems(uri, 1)).toHaveLength(1);
    await pusher.close(uri);
    expect(await pusher.request('textDocument/hover', { textDocument: { uri }, position: { line: 0, character: 0 } })).toBeNull();
    expect(pusher.pushed.at(-1)).toMatchObject({ uri, diagnostics: [] });
    await pusher.open(uri, 'D5', 1);
    await expect.poll(() => pusher.pushed.at(-1)).toMatchObject({ uri, version: 1, diagnostics: [] });
  });
});
