import {
  type CodeAction,
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
} from 'vscode-languageserver';
import { lineAt } from '../../grammar/at';
import { formatPassage } from '../../grammar/format';
import { actionSteps } from '../features/actions';
import { attemptsAt } from '../features/attempts';
import { completions } from '../features/completion';
import { highlights } from '../features/highlight';
import { hintHelp } from '../features/hint-help';
import { hoverAt } from '../features/hover';
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
import { atOnce, type DocumentRequest, fromFingering, fromOtherWays, fromText } from './request';
import { tokenNumbers } from './sent-tokens';
import * as to from './to-protocol';

/** Every question about a document that the server answers, beside that for its problems. */
export const REQUESTS: readonly DocumentRequest[] = [
  atOnce(HoverRequest.type, ({ position }, known, places, client) => {
    const target = client.options.commands ? { uri: places.uri, version: places.version } : undefined;
    const others = 'solutions' in known && known.solutions.every(({ work }) => work.prepared);
    const found = hoverAt(known, places.offset(position), { safeChance: known.settings.safeChance, target, others });
    return found ? to.hover(found, places, client) : null;
  }),
  fromOtherWays(CodeActionRequest.type, async ({ range, context }, known, places, client, pace) => {
    const found: CodeAction[] = [];
    for (const action of actionSteps(known, places.span(range), known.settings, to.wantedKinds(context))) {
      if (!action.log || client.options.commands) found.push(to.codeAction(action, places, client));
      await pace();
    }
    return found;
  }),
  fromFingering(InlayHintRequest.type, ({ range }, known, places) =>
    inlays(known, places.span(range), known.settings).map((inlay) => to.inlayHint(inlay, places)),
  ),
  fromFingering(CodeLensRequest.type, (_, known, places, client) =>
    lenses(known, known.settings).map((lens) => to.codeLens(lens, places, client)),
  ),
  fromOtherWays(CompletionRequest.type, ({ position }, known, places, client) =>
    to.completionList(completions(known, places.offset(position)), places, client),
  ),
  fromText(SignatureHelpRequest.type, ({ position }, known, places) => {
    const help = hintHelp(known, places.offset(position));
    return help ? to.signatureHelp(help) : null;
  }),
  fromText(SemanticTokensRequest.type, (_, { tree }, places, { tokens }) =>
    tokens.whole(places.uri, to.tokenRows(semanticTokens(tree), places)),
  ),
  fromText(SemanticTokensDeltaRequest.type, ({ previousResultId }, { tree }, places, { tokens }) =>
    tokens.change(places.uri, to.tokenRows(semanticTokens(tree), places), previousResultId),
  ),
  fromText(SemanticTokensRangeRequest.type, ({ range }, { tree }, places) => ({
    data: tokenNumbers(to.tokenRows(semanticTokens(tree, places.span(range)), places)),
  })),
  fromText(DocumentSymbolRequest.type, (_, known, places, client) => to.symbols(outline(known), places, client)),
  fromText(FoldingRangeRequest.type, (_, { tree }, places) => folds(tree).map((fold) => to.fold(fold, tree, places))),
  fromText(SelectionRangeRequest.type, ({ positions }, { tree }, places) =>
    positions.map((position) => to.selectionRange(selectionSteps(tree, places.offset(position)), places)),
  ),
  fromText(DocumentHighlightRequest.type, ({ position }, { tree }, places) =>
    highlights(tree, places.offset(position)).map((highlight) => to.highlight(highlight, places)),
  ),
  fromText(DocumentLinkRequest.type, (_, { tree, resolved }, places, client) => [
    ...ruleLinks(tree).flatMap((link) => to.documentLink(link, places, client)),
    ...playerLinks(resolved).flatMap((link) => to.playerLink(link, places)),
  ]),
  fromText(DocumentFormattingRequest.type, (_, { tree }, places) => formatPassage(tree).map((edit) => places.edit(edit))),
  fromText(DocumentRangeFormattingRequest.type, ({ range }, { tree }, places) => {
    const { start, end } = places.span(range);
    return formatPassage(tree, lineAt(tree, start), lineAt(tree, end) + 1).map((edit) => places.edit(edit));
  }),
  fromText(DefinitionRequest.type, ({ position }, { tree }, places) =>
    definitionOf(tree, places.offset(position)).map(({ span }) => ({ uri: places.uri, range: places.range(span) })),
  ),
  fromText(ReferencesRequest.type, ({ position, context }, { tree }, places) => {
    const motif = motifAt(tree, places.offset(position));
    return (motif ? motifNames(tree, motif.name) : [])
      .filter(({ definition }) => context.includeDeclaration || !definition)
      .map(({ span }) => ({ uri: places.uri, range: places.range(span) }));
  }),
  fromText(PrepareRenameRequest.type, ({ position }, { tree }, places) => {
    const motif = motifAt(tree, places.offset(position));
    return motif ? { range: places.range(motif.span), placeholder: motif.name } : null;
  }),
  fromText(RenameRequest.type, ({ position, newName }, { tree }, places, client) =>
    to.renamed(renameMotif(tree, places.offset(position), newName), places, client),
  ),
  {
    ...fromFingering(new RequestType<SceneParams, SceneReply, void>(SCENE_REQUEST), ({ have }, known, { uri }, { scenes }) =>
      scenes.reply(uri, known.version, known.solutions, have),
    ),
    patient: true,
  },
  fromOtherWays(
    new RequestType<AlternativesParams, AlternativesReply, void>(ALTERNATIVES_REQUEST),
    ({ version, passage, event }, known) => (version === known.version ? otherScenes(known, passage, event) : null),
  ),
  fromFingering(
    new RequestType<AttemptsParams, AttemptsReply, void>(ATTEMPTS_REQUEST),
    ({ position }, known, places) => attemptsAt(known, places.offset(position)) ?? null,
  ),
  fromOtherWays(new RequestType<PinParams, PinReply | null, void>(PIN_REQUEST), (params, known, places) => {
    const edits = params.version === known.version ? pinChosen(known, params) : undefined;
    return edits ? { edits: edits.map((edit) => to.pinEdit(edit, places)) } : null;
  }),
];
