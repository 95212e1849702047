import {
  type CodeAction,
  type CodeActionContext,
  CodeActionKind,
  type CodeLens,
  CompletionItemKind,
  type CompletionList,
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentLink,
  type DocumentSymbol,
  type FoldingRange,
  FoldingRangeKind,
  type Hover,
  type InlayHint,
  InsertTextFormat,
  LSPErrorCodes,
  MarkupKind,
  ResponseError,
  type SelectionRange,
  type SignatureHelp,
  type SymbolInformation,
  SymbolKind,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { Edit, Span, Tree } from '../../grammar/tree';
import type { Action } from '../features/action';
import type { Completion, CompletionKind } from '../features/completion';
import type { Highlight } from '../features/highlight';
import type { HintHelp } from '../features/hint-help';
import type * as feature from '../features/hover';
import type { Inlay } from '../features/inlay';
import type { Lens } from '../features/lens';
import type { PlayerLink, RuleLink } from '../features/links';
import type { Fold, OutlineEntry } from '../features/outline';
import { type LineTokens, TOKEN_MODIFIERS, TOKEN_TYPES } from '../features/tokens';
import { t } from '../l10n/translate';
import { COMMANDS, type PinReply } from '../protocol/messages';
import type { Places } from './places';
import { toDiagnostic } from './problems';
import type { Client } from './request';
import type { TokenRow } from './sent-tokens';

export function hover({ span, markdown }: feature.Hover, places: Places, { abilities }: Client): Hover {
  const formats = abilities.textDocument?.hover?.contentFormat ?? [];
  const marked = formats.includes(MarkupKind.Markdown);
  return {
    range: places.range(span),
    contents: marked
      ? { kind: MarkupKind.Markdown, value: markdown }
      : { kind: MarkupKind.PlainText, value: withoutMarkup(markdown) },
  };
}

/** For terminals and the like: no pictures, links by their words. */
function withoutMarkup(markdown: string): string {
  return markdown
    .replace(/^!\[.*$\n*/gm, '')
    .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/(?<!\\)(?:\*\*|`)/g, '')
    .replace(/\\([!-/:-@[-`{-~])/g, '$1');
}

const ACTION_KINDS: Readonly<Record<Action['kind'], CodeActionKind>> = {
  fix: CodeActionKind.QuickFix,
  rewrite: CodeActionKind.RefactorRewrite,
  fixAll: CodeActionKind.SourceFixAll,
};

/** The kinds of action that the client asks for; `only` names kinds or what they are kinds of, `refactor` for `refactor.rewrite`. */
export function wantedKinds({ only }: CodeActionContext): readonly Action['kind'][] | undefined {
  if (!only) return undefined;
  const kinds = Object.entries(ACTION_KINDS) as [Action['kind'], CodeActionKind][];
  return kinds.flatMap(([kind, name]) => (only.some((asked) => name === asked || name.startsWith(`${asked}.`)) ? [kind] : []));
}

export function codeAction(action: Action, places: Places, client: Client): CodeAction {
  return {
    title: action.title,
    kind: ACTION_KINDS[action.kind],
    ...(action.log
      ? { command: { title: action.title, command: COMMANDS.logAttempt, arguments: [{ uri: places.uri, ...action.log }] } }
      : { edit: workspaceEdit(action.edits, places, client) }),
    ...(action.problem && { diagnostics: [toDiagnostic(action.problem, places, client.options.rulePages)] }),
    ...(action.preferred && { isPreferred: true }),
  };
}

function workspaceEdit(edits: readonly Edit[], places: Places, { abilities }: Client): WorkspaceEdit {
  const { uri, version } = places;
  const written = edits.map((edit) => places.edit(edit));
  return abilities.workspace?.workspaceEdit?.documentChanges
    ? { documentChanges: [{ textDocument: { uri, version }, edits: written }] }
    : { changes: { [uri]: written } };
}

export function renamed(answer: readonly Edit[] | { readonly refused: string }, places: Places, client: Client): WorkspaceEdit {
  if ('refused' in answer) throw new ResponseError(LSPErrorCodes.RequestFailed, answer.refused);
  return workspaceEdit(answer, places, client);
}

export function inlayHint({ at, label, tooltip, edit }: Inlay, places: Places): InlayHint {
  const written = edit && { textEdits: [{ range: places.range(edit.span), newText: edit.text }] };
  return { position: places.place(at), label: unbroken(label), tooltip, paddingLeft: true, ...written };
}

/** A label that no editor wraps inside; what is written into the text is the edit's, not this. */
function unbroken(label: string): string {
  return label.replaceAll(' ', '\u00a0').replaceAll('/', '\u2215');
}

export function codeLens({ span, title, tooltip, reveal }: Lens, places: Places, { options }: Client): CodeLens {
  const range = places.range(span);
  const said = { title, ...(tooltip && { tooltip }) };
  if (!options.commands) return { range, command: { ...said, command: '' } };
  const command = reveal
    ? {
        ...said,
        command: COMMANDS.reveal,
        arguments: [places.uri, places.place(reveal.start), places.place(reveal.end)],
      }
    : { ...said, command: COMMANDS.preview, arguments: [places.uri] };
  return { range, command };
}

const COMPLETION_KINDS: Readonly<Record<CompletionKind, CompletionItemKind>> = {
  pitch: CompletionItemKind.Value,
  setting: CompletionItemKind.Property,
  value: CompletionItemKind.EnumMember,
  hint: CompletionItemKind.Constant,
  motif: CompletionItemKind.Function,
  word: CompletionItemKind.Keyword,
  snippet: CompletionItemKind.Snippet,
};

export function completionList(
  completions: readonly Completion[],
  places: Places,
  { abilities, options }: Client,
): CompletionList {
  const { snippetSupport: snippets, labelDetailsSupport } = abilities.textDocument?.completion?.completionItem ?? {};
  const items = completions.map(({ label, kind, detail, span, text, snippet, order }) => ({
    label,
    kind: COMPLETION_KINDS[kind],
    detail,
    // Beside every entry, not only the one that is chosen just now.
    ...(labelDetailsSupport && { labelDetails: { description: detail } }),
    sortText: String(order).padStart(4, '0'),
    textEdit: { range: places.range(span), newText: snippet && !snippets ? withoutStops(text) : text },
    ...(snippet && snippets && { insertTextFormat: InsertTextFormat.Snippet }),
    // The values of a setting are offered as soon as its name is written.
    ...(kind === 'setting' && options.commands && { command: { title: '', command: 'editor.action.triggerSuggest' } }),
  }));
  return { isIncomplete: false, items };
}

/** `motif ${1:name} = $0` as plain text: `motif name = `. */
function withoutStops(text: string): string {
  return text
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\{\d+\|([^,|}]*)[^}]*\}/g, '$1')
    .replace(/\$\d+/g, '');
}

export function signatureHelp({ label, documentation, parts, active }: HintHelp): SignatureHelp {
  const parameters = parts.map(({ start, end, documentation: value }) => ({
    label: [start, end] as [number, number],
    documentation: { kind: MarkupKind.Markdown, value },
  }));
  return { signatures: [{ label, documentation, parameters }], activeSignature: 0, activeParameter: active };
}

/** Five numbers for each token: lines and characters from the one before, length, type, modifiers. */
export function tokenRows(found: Iterable<LineTokens>, places: Places): readonly TokenRow[] {
  const all: TokenRow[] = [];
  let before = 0;
  for (const { line, tokens } of found) {
    const now = places.place(line.start).line;
    all.push(rowOf(tokens, now - before));
    before = now;
  }
  return all;
}

/** The tokens of a line that an edit leaves alone are the same object, and so is their row. */
const rows = new WeakMap<LineTokens['tokens'], TokenRow>();

function rowOf(tokens: LineTokens['tokens'], down: number): TokenRow {
  const known = rows.get(tokens);
  if (known?.down === down) return known;
  const row = { down, numbers: known?.numbers ?? numbersOf(tokens) };
  rows.set(tokens, row);
  return row;
}

/** As if the line were the first. */
function numbersOf(tokens: LineTokens['tokens']): readonly number[] {
  return tokens.flatMap(({ start, end, type, modifier }, at) => [
    0,
    start - (tokens[at - 1]?.start ?? 0),
    end - start,
    TOKEN_TYPES.indexOf(type),
    modifier ? 1 << TOKEN_MODIFIERS.indexOf(modifier) : 0,
  ]);
}

const SYMBOL_KINDS: Readonly<Record<OutlineEntry['kind'], SymbolKind>> = {
  passage: SymbolKind.Module,
  motif: SymbolKind.Function,
  bar: SymbolKind.Number,
};

export function symbols(
  entries: readonly OutlineEntry[],
  places: Places,
  { abilities }: Client,
): DocumentSymbol[] | SymbolInformation[] {
  if (abilities.textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport)
    return entries.map((entry) => symbol(entry, places));
  return entries
    .flatMap((entry) => [entry, ...entry.children])
    .map(({ name, kind, span }) => ({
      name,
      kind: SYMBOL_KINDS[kind],
      location: { uri: places.uri, range: places.range(span) },
    }));
}

function symbol({ name, detail, kind, span, selection, children }: OutlineEntry, places: Places): DocumentSymbol {
  return {
    name,
    detail,
    kind: SYMBOL_KINDS[kind],
    range: places.range(span),
    selectionRange: places.range(selection),
    children: children.map((child) => symbol(child, places)),
  };
}

export function fold({ first, last, kind }: Fold, tree: Tree, places: Places): FoldingRange {
  const lineOf = (index: number) => places.place(tree.lines[index]?.start ?? 0).line;
  return {
    startLine: lineOf(first),
    endLine: lineOf(last),
    kind: kind === 'comment' ? FoldingRangeKind.Comment : FoldingRangeKind.Region,
  };
}

/** Spans from the innermost outwards as the protocol nests them. */
export function selectionRange(steps: readonly Span[], places: Places): SelectionRange {
  const [widest = { start: 0, end: 0 }, ...inner] = [...steps].reverse();
  return inner.reduce<SelectionRange>((parent, span) => ({ range: places.range(span), parent }), { range: places.range(widest) });
}

export function highlight({ span, kind }: Highlight, places: Places): DocumentHighlight {
  return { range: places.range(span), kind: kind === 'definition' ? DocumentHighlightKind.Write : DocumentHighlightKind.Read };
}

export function documentLink({ span, code }: RuleLink, places: Places, { options }: Client): DocumentLink[] {
  return options.rulePages
    ? [{ range: places.range(span), target: `${options.rulePages}/${code}.md`, tooltip: t('What “{code}” means', { code }) }]
    : [];
}

/** Beside the passage, as its address says; a passage that was never saved has no folder, so it gets no link. */
export function playerLink({ span, file }: PlayerLink, { uri, range }: Places): DocumentLink[] {
  const folder = uri.slice(0, uri.lastIndexOf('/') + 1);
  if (folder === '') return [];
  return [
    {
      range: range(span),
      target: `${folder}${file.split('/').map(encodeURIComponent).join('/')}`,
      tooltip: t('The player’s file'),
    },
  ];
}

export function pinEdit({ span, text }: Edit, places: Places): PinReply['edits'][number] {
  return { start: places.place(span.start), end: places.place(span.end), text };
}
