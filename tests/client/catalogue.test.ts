import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { getL10nJson } from '@vscode/l10n-dev';
import { globSync } from 'tinyglobby';
import ts from 'typescript';
import { expect, it } from 'vitest';
import written from '../../package.json';
import words from '../../package.nls.json';

const BUNDLE = 'client/l10n/bundle.l10n.json';
const sources = globSync('client/**/*.ts', { ignore: 'client/webview/**' })
  .sort()
  .map((path) => ({ path, contents: readFileSync(path, 'utf8') }));

it('the catalogue for translators holds every message of the extension and no other', async () => {
  const exported = await getL10nJson(sources.map(({ contents }) => ({ extension: '.ts', contents })));
  const text = `${JSON.stringify(exported, null, 2)}\n`;
  if (process.env.UPDATE_MESSAGES) writeFileSync(BUNDLE, text);
  expect(
    existsSync(BUNDLE) && readFileSync(BUNDLE, 'utf8'),
    'make it anew: UPDATE_MESSAGES=1 npx vitest run tests/client/catalogue.test.ts',
  ).toBe(text);
  expect(Object.keys(exported).length).toBeGreaterThan(50);
  expect(`${written.l10n}/bundle.l10n.json`).toBe(`./${BUNDLE}`);
});

/** What may be said in words that nobody translates: logs and faults, which are for whoever looks into them. */
const UNTRANSLATED = /(?:\boutput\.error|\bclient\.(?:debug|error)|\bnew Error|createOutputChannel)$/;

/** What is called the same in every language, or is told to a program. */
const NAMES = new Set(['Passagework', 'A4', 'MusicXML', 'MIDI', 'WAV', 'FileNotFound']);

/** Sentences and phrases in code that don't come through the catalogue. */
function plainWords(path: string, contents: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) || ts.isNewExpression(node)) {
      const called = `${ts.isNewExpression(node) ? 'new ' : ''}${node.expression.getText()}`;
      if (called === 'vscode.l10n.t' || UNTRANSLATED.test(called)) return;
    }
    if (ts.isImportDeclaration(node)) return;
    const text =
      ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node) ? node.text : '';
    // Two words in a row, or one by itself that begins with a capital letter; no markup.
    if (/^[^<>]*[a-z’']{2,} [a-z][^<>]*$|^[A-Z]\w+[.…:]?$/i.test(text) && !/^[a-z]\w*$/.test(text) && !NAMES.has(text))
      found.push(`${path}: ${text}`);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, contents, ts.ScriptTarget.Latest, true));
  return found;
}

it('nothing is said to people but by the catalogue', () => {
  expect(sources.flatMap(({ path, contents }) => plainWords(path, contents))).toEqual([]);
});

it('a sentence beside the catalogue would be found', () => {
  const say = (argument: string) => plainWords('client/a.ts', `void vscode.window.showErrorMessage(${argument});`);
  expect(say("'Nothing was written.'")).toHaveLength(1);
  expect(say('`Saved the file.`')).toHaveLength(1);
  expect(say("vscode.l10n.t('Nothing was written.')")).toEqual([]);
});

/** Every text below a value with the name that it stands under. */
function* texts(value: unknown, name = ''): Generator<readonly [name: string, text: string]> {
  if (typeof value === 'string') yield [name, value];
  if (typeof value !== 'object' || value === null) return;
  for (const [key, member] of Object.entries(value)) yield* texts(member, Array.isArray(value) ? name : key);
}

it('every title and description of the manifest stands in the words beside it, and every word is used', () => {
  const said = [...texts(written.contributes)];
  const named = said.filter(([name]) => /(?:title|descriptions?|labels?)$/i.test(name)).map(([, text]) => text);
  expect(named.filter((text) => !/^%.+%$/.test(text) && text !== 'Passagework')).toEqual([]);
  const keys = said.flatMap(([, text]) => /^%(.+)%$/.exec(text)?.[1] ?? []);
  expect([...new Set(keys)].sort()).toEqual(Object.keys(words).sort());
});
