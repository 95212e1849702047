import { afterEach, describe, expect, it } from 'vitest';
import type { CodeAction, CodeLens, CompletionList, DocumentLink, Hover } from 'vscode-languageserver';
import type { AttemptsReply, EditPlayerReply, LogParams, PlayerParams, ReadPlayerReply } from '../../server/protocol/messages';
import { type LanguageClient, PLAIN, PULLING, startClient } from '../support/language-client';

const PASSAGE = 'file:///coast/scores/a.passage';
const PLAYER = 'file:///coast/scores/ines.player';
const TEXT = 'player: ines.player\n1/4 F#6o [natural]\n';

let client: LanguageClient | undefined;
afterEach(async () => {
  await client?.stop();
  client = undefined;
});

/** A client that hands over these files, and what it was asked for. */
async function withFiles(files: Record<string, ReadPlayerReply>, start: Parameters<typeof startClient>[0] = {}) {
  const asked: PlayerParams[] = [];
  const started = await startClient({ options: { commands: true, players: true }, ...start });
  client = started;
  started.connection.onRequest<ReadPlayerReply, void>('passagework/readPlayer', (params: PlayerParams): ReadPlayerReply => {
    asked.push(params);
    return files[params.file] ?? { missing: 'there is no such file' };
  });
  return { started, asked };
}

const openPlayer = (to: LanguageClient, text: string, version = 1) =>
  to.connection.sendNotification('textDocument/didOpen', { textDocument: { uri: PLAYER, languageId: 'player', version, text } });

const hoverOn = async (to: LanguageClient, line: number, character: number): Promise<string> => {
  const found = await to.request<Hover | null>('textDocument/hover', {
    textDocument: { uri: PASSAGE },
    position: { line, character },
  });
  return (found?.contents as { value: string } | undefined)?.value ?? '';
};

describe('players in the language server', () => {
  it('asks the client for the file that a passage names, once, and plays by it', async () => {
    const { started, asked } = await withFiles({ 'ines.player': { text: 'name: Ines\nIII 2/5: 0 of 10\n' } });
    await started.open(PASSAGE, TEXT);
    expect(await started.problems(PASSAGE, 1)).toEqual([]);
    expect(await hoverOn(started, 1, 5)).toContain('III 2/5 is left aside');
    await started.change(PASSAGE, 2, { text: `${TEXT}D6o\n` });
    await started.solved(PASSAGE, 2);
    expect(asked).toEqual([{ uri: PASSAGE, file: 'ines.player' }]);
  });

  it('fingers the passage again when the client says that the file has changed', async () => {
    const files: Record<string, ReadPlayerReply> = { 'ines.player': { text: 'III 2/5: 0 of 10\n' } };
    const { started } = await withFiles(files);
    await started.open(PASSAGE, TEXT);
    await started.solved(PASSAGE, 1);
    expect(await hoverOn(started, 1, 5)).toContain('is left aside');
    files['ines.player'] = { text: 'III 2/5: 10 of 10\n' };
    await started.connection.sendNotification('passagework/playerChanged', { uri: PASSAGE, file: 'ines.player' });
    await expect.poll(() => hoverOn(started, 1, 5)).toContain('III 2/5 as ines has tried it: 10 of 10');
    delete files['ines.player'];
    await started.connection.sendNotification('passagework/playerChanged', { uri: PASSAGE, file: 'ines.player' });
    await expect.poll(() => started.pushed.at(-1)?.diagnostics.map(({ code }) => code)).toEqual(['player-file']);
  });

  it('leads from the passage to the file', async () => {
    const { started } = await withFiles({});
    await started.open(PASSAGE, 'player: the crew/ines.player // hers\nD5\n');
    const links = await started.request<DocumentLink[]>('textDocument/documentLink', { textDocument: { uri: PASSAGE } });
    expect(links.map(({ target, range }) => [target, range.start.character, range.end.character])).toEqual([
      ['file:///coast/scores/the%20crew/ines.player', 8, 28],
    ]);
    await started.open('untitled:Untitled-1', TEXT);
    expect(await started.request('textDocument/documentLink', { textDocument: { uri: 'untitled:Untitled-1' } })).toEqual([]);
  });

  it('asks for no file that lies elsewhere, and tells a client without files why there is none', async () => {
    const { started, asked } = await withFiles({});
    await started.open(PASSAGE, 'player: ../../secret.player\nplayer: /etc/x.player\nD5\n');
    expect((await started.problems(PASSAGE, 1)).map(({ code }) => code)).toContain('player-file');
    expect(asked).toEqual([]);
    await started.stop();
    client = await startClient({ capabilities: PLAIN });
    await client.open(PASSAGE, TEXT);
    const [problem] = await client.problems(PASSAGE, 1);
    expect(problem?.message).toContain('this editor hands no player files to Passagework');
  });

  it('checks, completes, explains and fixes an open player file, and puts two lenses above every line of attempts', async () => {
    const { started } = await withFiles({}, { capabilities: PULLING });
    await openPlayer(started, 'hnd: small\nIII 1/5: 4 of 10\nI\nII \n');
    const problems = await started.pull(PLAYER);
    expect(problems.map(({ code, range }) => [code, range.start.line])).toEqual([
      ['player-key', 0],
      ['player-line', 2],
      ['player-line', 3],
    ]);
    const about = { textDocument: { uri: PLAYER } };
    const at = (line: number, character: number) => ({ ...about, position: { line, character } });
    const keys = await started.request<CompletionList>('textDocument/completion', at(4, 0));
    expect(keys.items.map(({ label }) => label)).toEqual(expect.arrayContaining(['name:', 'in tune:', 'III']));
    const nodes = await started.request<CompletionList>('textDocument/completion', at(3, 3));
    expect(nodes.items.map(({ label }) => label)).toEqual(expect.arrayContaining(['1/5', 'fourth', 'stopped']));
    const hover = await started.request<Hover>('textDocument/hover', at(1, 2));
    expect((hover.contents as { value: string }).value).toContain('28 semitones above the open string');
    const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 3 } };
    const fixes = await started.request<CodeAction[]>('textDocument/codeAction', {
      ...about,
      range,
      context: { diagnostics: [] },
    });
    expect(fixes.map(({ title }) => title)).toEqual(['Write hand']);
    const lenses = await started.request<CodeLens[]>('textDocument/codeLens', about);
    expect(lenses.map(({ command }) => command?.title)).toEqual(['clean: 5 of 11', 'not clean: 4 of 11']);
    expect(lenses[0]!.command?.arguments).toEqual([{ uri: PLAYER, attempt: 'III 1/5', clean: true } satisfies LogParams]);
    expect(await started.request('textDocument/foldingRange', about)).toBeNull();
  });

  it('counts an attempt at the note under the cursor: which, where, and with which edit', async () => {
    const { started } = await withFiles({ 'ines.player': { text: 'III 2/5: 10 of 10\n' } });
    await started.open(PASSAGE, TEXT);
    await started.solved(PASSAGE, 1);
    const attempts = (line: number, character: number) =>
      started.request<AttemptsReply>('passagework/attempts', { uri: PASSAGE, position: { line, character } });
    expect(await attempts(1, 5)).toEqual({ file: 'ines.player', attempts: ['III 2/5'] });
    expect(await attempts(0, 0)).toBeNull();
    const position = { line: 1, character: 5 };
    const actions = await started.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri: PASSAGE },
      range: { start: position, end: position },
      context: { diagnostics: [] },
    });
    const log = actions.filter(({ title }) => title.startsWith('Log an attempt'));
    expect(log.map(({ title }) => title)).toEqual(['Log an attempt at III 2/5: clean', 'Log an attempt at III 2/5: not clean']);
    expect(log[0]!.command?.arguments).toEqual([{ uri: PASSAGE, file: 'ines.player', attempt: 'III 2/5', clean: true }]);
    const edit = await started.request<EditPlayerReply>('passagework/editPlayer', {
      text: 'name: A\nIII 2/5: 9 of 10 // good\n',
      change: { kind: 'attempt', attempt: 'III 2/5', clean: false },
    });
    expect(edit).toEqual({ start: { line: 1, character: 9 }, end: { line: 1, character: 16 }, text: '9 of 11' });
  });
});
