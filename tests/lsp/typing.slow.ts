import { afterEach, describe, expect, it } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type LanguageClient, PLAIN, PULLING, startClient } from '../support/language-client';
import { reading } from '../support/reading';

const FILE = `// A study to type
instrument: violin
passage: Lighthouse \u{1F3BB} study
tempo: 1/4 = 72
wobble: 3
1/4 D6o E6o [II natural] H5 |
E5<>A5 = E6 C3 slur(F#6o
G6o [XX] D6o+A6o |
`;
const URI = 'file:///lighthouse/study.passage';

let client: LanguageClient | undefined;
afterEach(async () => {
  await client?.stop();
  client = undefined;
});

const known = new Map<string, readonly unknown[]>();

/** What the core itself finds in a text, in the protocol's terms. */
function expected(text: string): readonly unknown[] {
  const found = known.get(text) ?? worked(text);
  known.set(text, found);
  return found;
}

function worked(text: string): readonly unknown[] {
  const document = TextDocument.create(URI, 'passage', 1, text);
  return reading(text).problems.map(({ code, message, span }) => ({
    code,
    message,
    range: { start: document.positionAt(span.start), end: document.positionAt(span.end) },
  }));
}

function seen(diagnostics: readonly Diagnostic[]): readonly unknown[] {
  return diagnostics.map(({ code, message, range }) => ({ code, message, range }));
}

function doubles(diagnostics: readonly Diagnostic[]): readonly string[] {
  const keys = diagnostics.map((one) => JSON.stringify([one.code, one.message, one.range]));
  return keys.filter((key, index) => keys.indexOf(key) !== index);
}

/** Types a text at the end of the document, one UTF-16 unit after the other, as an editor sends it. */
async function type(
  to: LanguageClient,
  text: string,
  after: (typed: string, version: number) => Promise<void> | void,
): Promise<void> {
  let typed = '';
  let version = 1;
  for (const unit of text.split('')) {
    const position = TextDocument.create(URI, 'passage', version, typed).positionAt(typed.length);
    typed += unit;
    version++;
    await to.change(URI, version, { range: { start: position, end: position }, text: unit });
    await after(typed, version);
  }
}

describe('typing a file character by character', () => {
  it('pushes, for every version that it pushes, exactly the problems of that version', async () => {
    client = await startClient({ capabilities: PLAIN });
    await client.open(URI, '');
    const versions = new Map<number, string>([[1, '']]);
    // Without waiting: the server is always behind.
    await type(client, FILE, (typed, version) => void versions.set(version, typed));
    const last = Math.max(...versions.keys());
    expect(seen(await client.problems(URI, last))).toEqual(expected(FILE));

    const pushed = client.pushed.filter(({ uri }) => uri === URI);
    const order = pushed.map(({ version = -1 }) => version);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    for (const { version = -1, diagnostics } of pushed) {
      const text = versions.get(version);
      if (text === undefined) throw new Error(`Problems came for version ${version}, which was never sent.`);
      expect(doubles(diagnostics)).toEqual([]);
      // The cheap checks may come alone first; what comes is of that very version.
      const all = expected(text).map((one) => JSON.stringify(one));
      for (const one of seen(diagnostics)) expect(all).toContain(JSON.stringify(one));
    }
    expect(pushed.at(-1)?.version).toBe(last);
  });

  it('answers every pull with the problems of the newest version, and pushes nothing to a client that pulls', async () => {
    const puller = await startClient({ capabilities: PULLING });
    client = puller;
    await puller.open(URI, '');
    let last = 1;
    await type(puller, FILE, async (typed, version) => {
      last = version;
      if (version % 3 > 0) return;
      // At once: of this very version, at least what needs no fingering.
      const all = expected(typed).map((one) => JSON.stringify(one));
      const first = await puller.pull(URI);
      for (const one of seen(first)) expect(all).toContain(JSON.stringify(one));
      expect(doubles(first)).toEqual([]);
      if (version % 9 > 0) return;
      await puller.solved(URI, version);
      expect([version, seen(await puller.pull(URI))]).toEqual([version, expected(typed)]);
    });
    await puller.solved(URI, last);
    expect(seen(await puller.pull(URI))).toEqual(expected(FILE));
    expect(puller.pushed).toEqual([]);
  });

  it('gives the cheap checks at once where the fingering takes long, and asks to be asked again', async () => {
    const puller = await startClient({ capabilities: PULLING });
    client = puller;
    const long = `H5\n${'1/8 D5 F#5 A5 D6o E6o F#6o G6o A6o C3 |\n'.repeat(400)}`;
    await puller.open(URI, long);
    const first = await puller.pull(URI);
    expect(first.map(({ code }) => code)).toEqual(['pitch-letter']);
    await puller.solved(URI, 1);
    expect(seen(await puller.pull(URI))).toEqual(expected(long));
    expect(expected(long).length).toBeGreaterThan(1);
    await expect.poll(() => puller.refreshes()).toBe(1);
  });

  it('says of a pull that an edit overtakes that it should be asked again', async () => {
    const puller = await startClient({ capabilities: PULLING });
    client = puller;
    await puller.open(URI, 'D6o');
    const overtaken = puller.request('textDocument/diagnostic', { textDocument: { uri: URI } });
    await puller.change(URI, 2, { text: 'D6o H5' });
    await expect(overtaken).rejects.toMatchObject({ code: -32802, data: { retriggerRequest: true } });
    await puller.solved(URI, 2);
    expect(seen(await puller.pull(URI))).toEqual(expected('D6o H5'));
  });

  it('does not send the same problems again to a client that has them', async () => {
    const puller = await startClient({ capabilities: PULLING });
    client = puller;
    await puller.open(URI, 'D6o H5');
    await puller.solved(URI, 1);
    const ask = (previousResultId?: string) =>
      puller.request<{ kind: string; resultId: string }>('textDocument/diagnostic', {
        textDocument: { uri: URI },
        previousResultId,
      });
    const first = await ask();
    expect(await ask(first.resultId)).toEqual({ kind: 'unchanged', resultId: first.resultId });
    await puller.change(URI, 2, { text: 'D6o' });
    await puller.solved(URI, 2);
    await expect(puller.pull(URI)).resolves.toEqual([]);
    expect(await ask(first.resultId)).toMatchObject({ kind: 'full', items: [] });
  });

  it('is the same file however it is edited to there', async () => {
    client = await startClient();
    await client.open(URI, 'passage: X\r\nD5 E5\r\nF#5');
    await client.change(
      URI,
      2,
      { range: { start: { line: 1, character: 3 }, end: { line: 1, character: 5 } }, text: 'E6o\r\nH5' },
      { range: { start: { line: 0, character: 9 }, end: { line: 0, character: 10 } }, text: '\u{1F3BB}\u{1F3BB}' },
      { range: { start: { line: 3, character: 0 }, end: { line: 3, character: 99 } }, text: 'D6o [V]' },
    );
    expect(seen(await client.problems(URI, 2))).toEqual(expected('passage: \u{1F3BB}\u{1F3BB}\r\nD5 E6o\r\nH5\r\nD6o [V]'));
  });

  describe('a line that is being typed', () => {
    const HINT = 4;
    const ERROR = 1;
    const insert = (line: number, character: number, text: string) => ({
      range: { start: { line, character }, end: { line, character } },
      text,
    });
    const graded = (diagnostics: readonly Diagnostic[]) => diagnostics.map(({ code, severity }) => [code, severity]);

    it('says softly what is missing where the caret is, and as an error what is wrong elsewhere', async () => {
      const puller = await startClient({ capabilities: PULLING });
      client = puller;
      await puller.open(URI, 'instrument\nH5\n');
      await puller.change(URI, 2, insert(0, 10, ':'));
      expect(graded(await puller.pull(URI))).toEqual([
        ['setting-value', HINT],
        ['pitch-letter', ERROR],
      ]);
      await puller.change(URI, 3, insert(0, 11, ' '));
      expect(graded(await puller.pull(URI))[0]).toEqual(['setting-value', HINT]);
      // The bracket that is still open stands before the caret, in the line that is being typed.
      await puller.change(URI, 4, insert(2, 0, 'D5 [II'));
      const grades = new Map(graded(await puller.pull(URI)) as [string, number][]);
      expect(grades.get('bracket-missing')).toBe(HINT);
      expect(grades.get('setting-value')).toBe(ERROR);
    });

    it('says it as an error once typing rests: asks to be asked again, or pushes it to a client that does not ask', async () => {
      const [puller, plain] = await Promise.all([startClient({ capabilities: PULLING }), startClient({ capabilities: PLAIN })]);
      client = puller;
      try {
        for (const one of [puller, plain]) {
          await one.open(URI, 'D5 ');
          await one.change(URI, 2, insert(0, 3, 'H'));
        }
        expect((await puller.pull(URI))[0]?.severity).toBe(HINT);
        expect((await plain.problems(URI, 2))[0]?.severity).toBe(HINT);
        const before = puller.refreshes();
        await expect.poll(async () => (await puller.pull(URI))[0]?.severity, { timeout: 10_000 }).toBe(ERROR);
        await expect.poll(() => puller.refreshes()).toBeGreaterThan(before);
        await expect.poll(() => plain.pushed.at(-1)?.diagnostics[0]?.severity, { timeout: 10_000 }).toBe(ERROR);
      } finally {
        await plain.stop();
      }
    });

    it('takes whole lines that are pasted, and edits of several places, as finished', async () => {
      const puller = await startClient({ capabilities: PULLING });
      client = puller;
      await puller.open(URI, 'D5\n');
      await puller.change(URI, 2, insert(1, 0, 'H5\nD5'));
      expect((await puller.pull(URI))[0]?.severity).toBe(ERROR);
      await puller.change(URI, 3, insert(2, 2, ' H5'), insert(0, 2, ' H5'));
      expect((await puller.pull(URI)).map(({ severity }) => severity)).toEqual([ERROR, ERROR, ERROR]);
    });
  });
});
