import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CodeAction, CompletionItem, Hover, InlayHint, SignatureHelp } from 'vscode-languageserver-types';
import bundle from '../../client/l10n/bundle.l10n.json';
import { EXERCISES_REQUEST, type ExercisesReply, IMPORT_REQUEST, type ImportReply } from '../../server/protocol/messages';
import { converterAt } from '../support/converter';
import { type LanguageClient, startClient } from '../support/language-client';

/** An invented language that says everything in English between brackets, holes and all: what stands outside them was not translated. */
const words = Object.fromEntries(Object.keys(bundle).map((message) => [message, `⟦${message}⟧`]));

/** What is left when all that was translated is taken out, from the inside outwards. */
function untranslated(said: string): string {
  const rest = said.replace(/⟦[^⟦⟧]*⟧/g, '');
  return rest === said ? said : untranslated(rest);
}

/** Words that a sentence would be made of; what the language itself is made of stands in code marks and in names of pitches and strings. */
function english(said: string): readonly string[] {
  const told = untranslated(said)
    .replace(/!\[[^\]]*\]\([^)]*\)|\]\(command:[^)]*\)/g, '')
    .replace(/`[^`]*`/g, '');
  return told.match(/[A-Za-z]{3,}/g) ?? [];
}

const URI = 'file:///harbour/bells.passage';
const TEXT = `passage: Bells
instrument: violin
tempo: 1/4 = 200
meter: 4/4
motif wave = 1/8 D5 E5
1/4 D6o A5 [1 III] H5 G3+A3 |
<>A4 1/4 wave E5<>A5 C8o |
key: Q major
1/4 D5 [9] ffff qqq ) | A3+B3 wave on |
temp: 1/4 = 60
`;

let client: LanguageClient;

beforeAll(async () => {
  client = await startClient({ options: { words } });
  await client.open(URI, TEXT);
});

afterAll(() => client.process.kill());

const at = (line: number, character: number) => ({ textDocument: { uri: URI }, position: { line, character } });
const column = (line: number, word: string) => (TEXT.split('\n')[line] ?? '').indexOf(word);

describe('a server that was handed a translation', () => {
  it('tells problems in it, holes filled', async () => {
    const problems = await client.problems(URI, 1);
    expect(problems.length).toBeGreaterThan(7);
    for (const message of problems.map((problem) => String(problem.message))) {
      expect(message).toMatch(/^⟦/);
      expect(english(message)).toEqual([]);
      expect(message).not.toMatch(/[{}]/);
    }
    expect(problems.map(({ message }) => message)).toContain(
      '⟦“H5” is not a pitch. Notes are named A to G: the one below C is B, and a semitone lower it is Bb.⟧',
    );
  });

  it('names fixes and other actions in it', async () => {
    const diagnostics = await client.problems(URI, 1);
    const range = { start: { line: 5, character: 0 }, end: { line: 5, character: 30 } };
    const actions: CodeAction[] = await client.request('textDocument/codeAction', {
      textDocument: { uri: URI },
      range,
      context: { diagnostics },
    });
    expect(actions.map(({ title }) => title)).toContain('⟦Write B5⟧');
    for (const { title } of actions) expect(english(title)).toEqual([]);
  });

  it('says in it what a note is, and what a setting means', async () => {
    await client.solved(URI, 1);
    for (const [line, word] of [
      [5, 'D6o'],
      [5, '[1'],
      [2, 'tempo'],
      [0, 'Bells'],
    ] as const) {
      const hover: Hover = await client.request('textDocument/hover', at(line, column(line, word) + 1));
      const { value } = hover.contents as { value: string };
      expect(value).toContain('⟦');
      expect(english(value).filter((left) => !['Bells', 'tempo', 'violin'].includes(left))).toEqual([]);
      expect(value).not.toMatch(/\{\w+\}/);
    }
  });

  it('tells in it what may be written, and what is shown beside the notes', async () => {
    const offered: CompletionItem[] | { items: CompletionItem[] } = await client.request('textDocument/completion', at(6, 0));
    const items = Array.isArray(offered) ? offered : offered.items;
    expect(items.length).toBeGreaterThan(30);
    for (const { detail } of items) expect(english(detail ?? '')).toEqual([]);
    const hints: InlayHint[] = await client.request('textDocument/inlayHint', {
      textDocument: { uri: URI },
      range: { start: { line: 0, character: 0 }, end: { line: 8, character: 0 } },
    });
    expect(hints.length).toBeGreaterThan(0);
    for (const { tooltip } of hints) expect(english(String(tooltip ?? ''))).toEqual([]);
    const help: SignatureHelp = await client.request('textDocument/signatureHelp', at(5, column(5, '[1') + 1));
    expect(help.signatures[0]?.documentation).toMatch(/^⟦/);
  });
});

describe('a converter that was handed a translation', () => {
  const converter = converterAt('dist/server/node-conversion.js', { words });

  it('tells in it what a score has that a passage has not, and why a file can’t be read', async () => {
    const abc = 'X:1\nT:Bells\nM:4/4\nL:1/4\nK:D\n"Dm"d e f a|\nw: ding dong\n';
    const ask = (text: string) =>
      converter.request<object, ImportReply>(IMPORT_REQUEST, { base64: Buffer.from(text).toString('base64') });
    const reply = await ask(abc);
    if ('problem' in reply) throw new Error(reply.problem);
    expect(reply.lost).toContain('⟦⟦⟦left out⟧: ⟦a chord symbol⟧⟧ (bar 1)⟧');
    expect(reply.lost.flatMap(english)).toEqual([]);
    expect(await ask('<html/>')).toMatchObject({ problem: expect.stringMatching(/^⟦/) });
  });

  it('makes exercises that are told in it and read without a problem', async () => {
    const text = 'tempo: 1/4 = 120\nmeter: 4/4\n1/8 D6o A5 E6o B5 F#6o A5 G3 E5<>A5 |\n';
    const settled = { uri: URI, text, line: 0, instrument: '', hand: '', safeChance: 0.8 };
    const reply = await converter.request<object, ExercisesReply>(EXERCISES_REQUEST, settled);
    if ('problem' in reply) throw new Error(reply.problem);
    expect(reply.kinds.length).toBeGreaterThan(3);
    for (const { label, meaning } of reply.kinds) expect(english(`${label} ${meaning}`)).toEqual([]);
    const told = reply.text.split('\n').filter((line) => line.startsWith('>'));
    expect(told.length).toBeGreaterThan(10);
    expect(told.flatMap(english)).toEqual([]);
  });
});

it('a bundle that is none is no reason to stop: what it lacks is said in English', async () => {
  const plain = await startClient({ options: { words: { 'Write {text}': 5, constructor: 'x' } } });
  await plain.open(URI, TEXT);
  expect((await plain.problems(URI, 1)).map(({ message }) => message)).toContain(
    '“H5” is not a pitch. Notes are named A to G: the one below C is B, and a semitone lower it is Bb.',
  );
  plain.process.kill();
});
