import {
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
  SemanticTokensRangeRequest,
  SemanticTokensRequest,
  SignatureHelpRequest,
} from 'vscode-languageserver';
import { lineAt } from '../../grammar/at';
import { format } from '../../grammar/format';
import { actions } from '../features/actions';
import { completions } from '../features/completion';
import { highlights } from '../features/highlight';
import { hintHelp } from '../features/hint-help';
import { hover } from '../features/hover';
import { inlays } from '../features/inlay';
import { lenses } from '../features/lens';
import { ruleLinks } from '../features/links';
import { definitionOf, motifAt, motifNames, renameMotif } from '../features/motifs';
import { folds, outline } from '../features/outline';
import { pinChosen } from '../features/pin-choice';
import { selectionSteps } from '../features/selection';
import { semanticTokens } from '../features/tokens';
import {
  PIN_REQUEST,
  type PinParams,
  type PinReply,
  SCENE_REQUEST,
  type SceneParams,
  type SceneReply,
} from '../protocol/messages';
import { buildScene } from '../scene/scene';
import { alternatives } from '../solver/alternatives';
import { type DocumentRequest, fromFingering, fromText } from './request';
import * as to from './to-protocol';

/** Every question about a document that the server answers, beside that for its problems. */
export const REQUESTS: readonly DocumentRequest[] = [
  fromFingering(HoverRequest.type, ({ position }, known, places, client) => {
    const target = client.options.commands ? { uri: places.uri, version: places.version } : undefined;
    const found = hover(known, places.offset(position), target);
    return found ? to.hover(found, places, client) : null;
  }),
  fromFingering(CodeActionRequest.type, ({ range, context }, known, places, client) =>
    to.codeActions(actions(known, places.span(range), known.settings), context, places, client),
  ),
  fromFingering(InlayHintRequest.type, ({ range }, known, places) =>
    inlays(known, places.span(range), known.settings).map((inlay) => to.inlayHint(inlay, places)),
  ),
  fromFingering(CodeLensRequest.type, (_, known, places, client) =>
    lenses(known, known.settings).map((lens) => to.codeLens(lens, places, client)),
  ),
  fromText(CompletionRequest.type, ({ position }, known, places, client) =>
    to.completionList(completions(known, places.offset(position)), places, client),
  ),
  fromText(SignatureHelpRequest.type, ({ position }, known, places) => {
    const help = hintHelp(known, places.offset(position));
    return help ? to.signatureHelp(help) : null;
  }),
  fromText(SemanticTokensRequest.type, (_, { tree }, places) => to.tokens(semanticTokens(tree), places)),
  fromText(SemanticTokensRangeRequest.type, ({ range }, { tree }, places) =>
    to.tokens(semanticTokens(tree, places.span(range)), places),
  ),
  fromText(DocumentSymbolRequest.type, (_, { tree }, places, client) => to.symbols(outline(tree), places, client)),
  fromText(FoldingRangeRequest.type, (_, { tree }, places) => folds(tree).map((fold) => to.fold(fold, tree, places))),
  fromText(SelectionRangeRequest.type, ({ positions }, { tree }, places) =>
    positions.map((position) => to.selectionRange(selectionSteps(tree, places.offset(position)), places)),
  ),
  fromText(DocumentHighlightRequest.type, ({ position }, { tree }, places) =>
    highlights(tree, places.offset(position)).map((highlight) => to.highlight(highlight, places)),
  ),
  fromText(DocumentLinkRequest.type, (_, { tree }, places, client) =>
    ruleLinks(tree).flatMap((link) => to.documentLink(link, places, client)),
  ),
  fromText(DocumentFormattingRequest.type, (_, { tree }, places) => format(tree).map((edit) => places.edit(edit))),
  fromText(DocumentRangeFormattingRequest.type, ({ range }, { tree }, places) => {
    const { start, end } = places.span(range);
    return format(tree, lineAt(tree, start), lineAt(tree, end) + 1).map((edit) => places.edit(edit));
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
    ...fromFingering(new RequestType<SceneParams, SceneReply, void>(SCENE_REQUEST), (_, { solutions, version }, { uri }) =>
      buildScene(
        uri,
        version,
        solutions.map((solution) => ({
          passage: solution.passage,
          solution,
          alternatives: (event) => alternatives(solution, event),
        })),
      ),
    ),
    patient: true,
  },
  fromFingering(new RequestType<PinParams, PinReply | null, void>(PIN_REQUEST), (params, known, places) => {
    const edits = params.version === known.version ? pinChosen(known, params) : undefined;
    return edits ? { edits: edits.map((edit) => to.pinEdit(edit, places)) } : null;
  }),
];
