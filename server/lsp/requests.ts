import type {
  CodeAction,
  CodeActionRequest,
  CodeLensRequest,
  CompletionRequest,
  DefinitionRequest,
  DocumentFormattingRequest,
  DocumentHighlightRequest,
  DocumentLinkRequest,
  DocumentRangeFormattingRequest,
  DocumentSymbolRequest,
  FoldingRangeRequest,
  HoverRequest,
  InlayHintRequest,
  PrepareRenameRequest,
  ReferencesRequest,
  RenameRequest,
  RequestType,
  SelectionRangeRequest,
  SemanticTokensDeltaRequest,
  SemanticTokensRangeRequest,
  SemanticTokensRequest,
  SignatureHelpRequest,
} from 'vscode-languageserver-protocol';
import { lineAt } from '../../grammar/at';
import { format } from '../../grammar/format';
import { actionSteps } from '../features/actions';
import { attemptsAt } from '../features/attempts';
import { completions } from '../features/completion';
import { highlights } from '../features/highlight';
import { hintHelp } from '../features/hint-help';
import { hover } from '../features/hover';
import { inlays } from '../features/inlay';
import { lenses } from '../features/lens';
import { playerLinks, ruleLinks } from '../features/links';
import { definitionOf, motifAt, motifNames, renameMotif } from '../features/motifs';
import { otherScenes } from '../features/other-ways';
import { folds, outline } from '../features/outline';
import { pinChosen } from '../features/pin-choice';
import { selectionSteps } from '../features/selection';
import { semanticTokens } from '../features/tokens';
import {
  ALTERNATIVES_REQUEST,
  type AlternativesParams,
  type AlternativesReply,
  ATTEMPTS_REQUEST,
  type AttemptsParams,
  type AttemptsReply,
  PIN_REQUEST,
  type PinParams,
  type PinReply,
  SCENE_REQUEST,
  type SceneParams,
  type SceneReply,
} from '../protocol/messages';
import { atOnce, type DocumentRequest, fromFingering, fromOtherWays, fromText, type Kind } from './request';
import * as to from './to-protocol';

/** A method of ours (see server/protocol/messages.ts). */
interface Custom<Method extends string, P, R> extends Kind {
  readonly method: Method;
  readonly type: RequestType<P, R, void>;
}

/** Every question about a document that the server answers, beside that for its problems. */
export const REQUESTS: readonly DocumentRequest[] = [
  atOnce<typeof HoverRequest>('textDocument/hover', ({ position }, known, places, client) => {
    const target = client.options.commands ? { uri: places.uri, version: places.version } : undefined;
    const others = 'solutions' in known && known.solutions.every(({ work }) => work.prepared);
    const found = hover(known, places.offset(position), { safeChance: known.settings.safeChance, target, others });
    return found ? to.hover(found, places, client) : null;
  }),
  fromOtherWays<typeof CodeActionRequest>('textDocument/codeAction', async ({ range, context }, known, places, client, pace) => {
    const found: CodeAction[] = [];
    for (const action of actionSteps(known, places.span(range), known.settings, to.wantedKinds(context))) {
      if (!action.log || client.options.commands) found.push(to.codeAction(action, places, client));
      await pace();
    }
    return found;
  }),
  fromFingering<typeof InlayHintRequest>('textDocument/inlayHint', ({ range }, known, places) =>
    inlays(known, places.span(range), known.settings).map((inlay) => to.inlayHint(inlay, places)),
  ),
  fromFingering<typeof CodeLensRequest>('textDocument/codeLens', (_, known, places, client) =>
    lenses(known, known.settings).map((lens) => to.codeLens(lens, places, client)),
  ),
  fromOtherWays<typeof CompletionRequest>('textDocument/completion', ({ position }, known, places, client) =>
    to.completionList(completions(known, places.offset(position)), places, client),
  ),
  fromText<typeof SignatureHelpRequest>('textDocument/signatureHelp', ({ position }, known, places) => {
    const help = hintHelp(known, places.offset(position));
    return help ? to.signatureHelp(help) : null;
  }),
  fromText<typeof SemanticTokensRequest>('textDocument/semanticTokens/full', (_, { tree }, places, { tokens }) =>
    tokens.whole(places.uri, to.tokens(semanticTokens(tree), places)),
  ),
  fromText<typeof SemanticTokensDeltaRequest>(
    'textDocument/semanticTokens/full/delta',
    ({ previousResultId }, { tree }, places, { tokens }) =>
      tokens.change(places.uri, to.tokens(semanticTokens(tree), places), previousResultId),
  ),
  fromText<typeof SemanticTokensRangeRequest>('textDocument/semanticTokens/range', ({ range }, { tree }, places) => ({
    data: to.tokens(semanticTokens(tree, places.span(range)), places),
  })),
  fromText<typeof DocumentSymbolRequest>('textDocument/documentSymbol', (_, known, places, client) =>
    to.symbols(outline(known), places, client),
  ),
  fromText<typeof FoldingRangeRequest>('textDocument/foldingRange', (_, { tree }, places) =>
    folds(tree).map((fold) => to.fold(fold, tree, places)),
  ),
  fromText<typeof SelectionRangeRequest>('textDocument/selectionRange', ({ positions }, { tree }, places) =>
    positions.map((position) => to.selectionRange(selectionSteps(tree, places.offset(position)), places)),
  ),
  fromText<typeof DocumentHighlightRequest>('textDocument/documentHighlight', ({ position }, { tree }, places) =>
    highlights(tree, places.offset(position)).map((highlight) => to.highlight(highlight, places)),
  ),
  fromText<typeof DocumentLinkRequest>('textDocument/documentLink', (_, { tree, resolved }, places, client) => [
    ...ruleLinks(tree).flatMap((link) => to.documentLink(link, places, client)),
    ...playerLinks(resolved).flatMap((link) => to.playerLink(link, places)),
  ]),
  fromText<typeof DocumentFormattingRequest>('textDocument/formatting', (_, { tree }, places) =>
    format(tree).map((edit) => places.edit(edit)),
  ),
  fromText<typeof DocumentRangeFormattingRequest>('textDocument/rangeFormatting', ({ range }, { tree }, places) => {
    const { start, end } = places.span(range);
    return format(tree, lineAt(tree, start), lineAt(tree, end) + 1).map((edit) => places.edit(edit));
  }),
  fromText<typeof DefinitionRequest>('textDocument/definition', ({ position }, { tree }, places) =>
    definitionOf(tree, places.offset(position)).map(({ span }) => ({ uri: places.uri, range: places.range(span) })),
  ),
  fromText<typeof ReferencesRequest>('textDocument/references', ({ position, context }, { tree }, places) => {
    const motif = motifAt(tree, places.offset(position));
    return (motif ? motifNames(tree, motif.name) : [])
      .filter(({ definition }) => context.includeDeclaration || !definition)
      .map(({ span }) => ({ uri: places.uri, range: places.range(span) }));
  }),
  fromText<typeof PrepareRenameRequest>('textDocument/prepareRename', ({ position }, { tree }, places) => {
    const motif = motifAt(tree, places.offset(position));
    return motif ? { range: places.range(motif.span), placeholder: motif.name } : null;
  }),
  fromText<typeof RenameRequest>('textDocument/rename', ({ position, newName }, { tree }, places, client) =>
    to.renamed(renameMotif(tree, places.offset(position), newName), places, client),
  ),
  {
    ...fromFingering<Custom<typeof SCENE_REQUEST, SceneParams, SceneReply>>(
      SCENE_REQUEST,
      ({ have }, known, { uri }, { scenes }) => scenes.reply(uri, known.version, known.solutions, have),
    ),
    patient: true,
  },
  fromOtherWays<Custom<typeof ALTERNATIVES_REQUEST, AlternativesParams, AlternativesReply>>(
    ALTERNATIVES_REQUEST,
    ({ version, passage, event }, known) => (version === known.version ? otherScenes(known, passage, event) : null),
  ),
  fromFingering<Custom<typeof ATTEMPTS_REQUEST, AttemptsParams, AttemptsReply>>(
    ATTEMPTS_REQUEST,
    ({ position }, known, places) => attemptsAt(known, places.offset(position)) ?? null,
  ),
  fromOtherWays<Custom<typeof PIN_REQUEST, PinParams, PinReply | null>>(PIN_REQUEST, (params, known, places) => {
    const edits = params.version === known.version ? pinChosen(known, params) : undefined;
    return edits ? { edits: edits.map((edit) => to.pinEdit(edit, places)) } : null;
  }),
];
