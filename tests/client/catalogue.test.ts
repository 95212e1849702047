import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { getL10nJson } from '@vscode/l10n-dev';
import { globSync } from 'tinyglobby';
import ts from 'typescript';
import { expect, it } from 'vitest';
import { DIRECTIONS, JUMPS, MARKS } from '../../grammar/marks';
import { PLAYER_KEY_NAMES } from '../../grammar/player-keys';
import { SETTING_KEYS } from '../../grammar/settings';
import written from '../../package.json';
import words from '../../package.nls.json';

const BUNDLE = 'client/l10n/bundle.l10n.json';
const read = (pattern: string, ignore: readonly string[] = []) =>
  globSync(pattern, { ignore: [...ignore] })
    .sort()
    .map((path) => ({ path, contents: readFileSync(path, 'utf8') }));

/** The extension, which asks VS Code itself. */
const extension = read('client/**/*.ts', ['client/webview/**']);
/** All that says something by `t` (`server/l10n/translate.ts`): the server, its converters, the preview. The command speaks English alone. */
const programs = ['grammar/**/*.ts', 'server/**/*.ts', 'client/**/*.ts'].flatMap((pattern) =>
  read(pattern, ['server/command/**', 'server/l10n/**']),
);

const parsed = ({ path, contents }: { readonly path: string; readonly contents: string }) =>
  ts.createSourceFile(path, contents, ts.ScriptTarget.Latest, true);

/** What stands in calls of `t` and `later`, in the order of the text; what is put together there could not be looked up. */
function messages(file: ts.SourceFile): { readonly said: readonly string[]; readonly madeUp: readonly string[] } {
  const said: string[] = [];
  const madeUp: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && /^(?:t|later)$/.test(node.expression.getText())) {
      const [message] = node.arguments;
      if (message && ts.isStringLiteralLike(message)) said.push(message.text);
      else if (message && (ts.isTemplateExpression(message) || (ts.isBinaryExpression(message) && isSum(message))))
        madeUp.push(`${file.fileName}: ${message.getText()}`);
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return { said, madeUp };
}

function isSum({ operatorToken }: ts.BinaryExpression): boolean {
  return operatorToken.kind === ts.SyntaxKind.PlusToken;
}

/** True where a call is made while the file loads, before anybody has said which language is spoken. */
function isAtLoad(node: ts.Node): boolean {
  const around = ts.findAncestor(node.parent, ts.isFunctionLike);
  if (!around) return ts.findAncestor(node, ts.isPropertyDeclaration) === undefined;
  // What goes through a list is done there and then; what is handed to anything else, when it is wanted.
  const handed = ts.isCallExpression(around.parent) && ts.isPropertyAccessExpression(around.parent.expression);
  return handed && isAtLoad(around.parent);
}

it('nothing is translated before the language is known', () => {
  const early: string[] = [];
  for (const file of programs.map(parsed)) {
    const visit = (node: ts.Node): void => {
      if (ts.isCallExpression(node) && node.expression.getText() === 't' && isAtLoad(node))
        early.push(`${file.fileName}: ${node.getText()}: write \`later\` here, and \`t\` where it is said`);
      ts.forEachChild(node, visit);
    };
    visit(file);
  }
  expect(early).toEqual([]);
  const [before, late] = ["const A = ['x'].map((x) => t(x));", "const f = () => ['x'].map((x) => t(x));"].map((contents) => {
    const found: boolean[] = [];
    const visit = (node: ts.Node): void => {
      if (ts.isCallExpression(node) && node.expression.getText() === 't') found.push(isAtLoad(node));
      ts.forEachChild(node, visit);
    };
    visit(parsed({ path: 'a.ts', contents }));
    return found;
  });
  expect([before, late]).toEqual([[true], [false]]);
});

it('the catalogue for translators holds every message of extension, server and preview, and no other', async () => {
  const exported = await getL10nJson(extension.map(({ contents }) => ({ extension: '.ts', contents })));
  const found = programs.map((source) => messages(parsed(source)));
  expect(found.flatMap(({ madeUp }) => madeUp)).toEqual([]);
  const said = found.flatMap((each) => each.said);
  const own = Object.fromEntries(said.map((message) => [message, message]));
  // By their letters, so that moving code changes nothing here.
  const sorted = Object.entries({ ...exported, ...own }).sort(([one], [other]) => (one < other ? -1 : 1));
  const text = `${JSON.stringify(Object.fromEntries(sorted), null, 2)}\n`;
  if (process.env.UPDATE_MESSAGES) writeFileSync(BUNDLE, text);
  expect(
    existsSync(BUNDLE) && readFileSync(BUNDLE, 'utf8'),
    'make it anew: UPDATE_MESSAGES=1 npx vitest run tests/client/catalogue.test.ts',
  ).toBe(text);
  expect(Object.keys(exported).length).toBeGreaterThan(50);
  expect(said.length).toBeGreaterThan(500);
  expect(`${written.l10n}/bundle.l10n.json`).toBe(`./${BUNDLE}`);
});

/** What may be said in words that nobody translates: logs and faults, which are for whoever looks into them, and what programs are told. */
const UNTRANSLATED =
  /(?:\boutput\.error|\bclient\.(?:debug|error)|\bnew \w*Error|\bnew Cancelled|createOutputChannel|^createToken|\.test|\.includes|\.startsWith|\.endsWith|\bguard\.fault|\bconsole\.\w+|\bnew RegExp)$/;

/** What is called the same in every language, or is told to a program. */
const NAMES = new Set([
  'Passagework',
  'A4',
  'MusicXML',
  'MIDI',
  'WAV',
  'FileNotFound',
  'NFKD',
  'ArrowLeft',
  'ArrowRight',
  'Home',
  'End',
  'Enter',
]);

/** Files with words that nobody is told, or that are the same whatever the reader speaks. */
const SILENT: Readonly<Record<string, string>> = {
  'server/instrument/constants.ts': 'units and sources, for who reads the code',
  'server/lsp/door.ts': 'faults of a client, for who writes one',
  'server/lsp/params.ts': 'faults of a client, for who writes one',
  'server/lsp/guard.ts': 'logs',
  'server/lsp/node-frames.ts': 'logs',
  'server/scene/staff/mark-signs.ts': 'as scores print it',
  'server/scene/staff/outlines.ts': 'outlines of signs',
  'server/exchange/score/printed-words.ts': 'as scores print it',
  'server/exchange/musicxml/signs.ts': 'as scores print it',
  'server/exchange/musicxml/beams.ts': 'names of MusicXML',
  'server/workspace/pace.ts': 'what ends work that nobody waits for',
  'server/features/snippets.ts': 'labels, which are typed, and music',
  'server/solver/habits.ts': 'names of habits, as they were learned',
  'server/solver/learned.ts': 'names of habits, as they were learned',
  'server/solver/cellists.ts': 'names of habits, as they were learned',
  'server/solver/violists.ts': 'names of habits, as they were learned',
  'server/solver/styles.ts': 'names of habits, as they were learned',
};

/** What programs read: words of our language, what the solver calls a limit, what a loss is called in a report. */
const CODE = new Set<string>([
  ...SETTING_KEYS,
  ...PLAYER_KEY_NAMES,
  ...[...MARKS, ...DIRECTIONS, ...JUMPS].map(({ word }) => word),
  'time signature',
  'key signature',
  'no open strings',
  'just D',
  ' natural at ',
  'To Coda',
  'left out',
  'Core Audio',
  'string I–IV',
  '// check file: ',
  ' while typing',
  'left hand',
  'finger and bow',
  'panel measure',
  'quiet range',
]);
/** Style sheets, fonts, and names of XML in a row. */
const CSS = /^chord pitch rest |^pw-|[{}]|system-ui|serif$|--/;

/** Sentences and phrases in code that don't come through the catalogue. */
function plainWords(path: string, contents: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) || ts.isNewExpression(node)) {
      const called = `${ts.isNewExpression(node) ? 'new ' : ''}${node.expression.getText()}`;
      if (/^(?:vscode\.l10n\.t|t|later)$/.test(called)) {
        for (const holes of node.arguments?.slice(1) ?? []) visit(holes);
        return;
      }
      if (UNTRANSLATED.test(called)) return;
    }
    if (ts.isImportDeclaration(node) || ts.isTypeNode(node)) return;
    const text =
      ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node) ? node.text : '';
    // Two words in a row, or in the extension one by itself that begins with a capital letter; no markup.
    const single = path.startsWith('client/') && /^[A-Z]\w+[.…:]?$/.test(text);
    const phrase = /^[^<>]*[a-z’']{2,} [a-z][^<>]*$/i.test(text) && !CSS.test(text);
    if ((single || phrase) && !NAMES.has(text) && !CODE.has(text)) found.push(`${path}: ${text}`);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, contents, ts.ScriptTarget.Latest, true));
  return found;
}

it('nothing is said to people but by the catalogue', () => {
  const all = new Map([...extension, ...programs].map((source) => [source.path, source.contents]));
  expect([...all].flatMap(([path, contents]) => (path in SILENT ? [] : plainWords(path, contents)))).toEqual([]);
});

it('a sentence beside the catalogue would be found', () => {
  const say = (argument: string) => plainWords('client/a.ts', `void vscode.window.showErrorMessage(${argument});`);
  expect(say("'Nothing was written.'")).toHaveLength(1);
  expect(say('`Saved the file.`')).toHaveLength(1);
  expect(say("vscode.l10n.t('Nothing was written.')")).toEqual([]);
  expect(say("t('Nothing was written in {file}.', { file: 'the other file' })")).toHaveLength(1);
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
