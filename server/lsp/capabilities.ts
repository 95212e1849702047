import { type ClientCapabilities, CodeActionKind, type InitializeResult, TextDocumentSyncKind } from 'vscode-languageserver';
import { COMPLETION_TRIGGERS } from '../features/completion';
import { TOKEN_MODIFIERS, TOKEN_TYPES } from '../features/tokens';
import { pulls } from './diagnostics';

/** What the server can do for this client. */
export function capabilities(abilities: ClientCapabilities): InitializeResult {
  return {
    serverInfo: { name: 'passagework' },
    capabilities: {
      // Offsets inside are those of the text in memory, so nothing is converted.
      positionEncoding: 'utf-16',
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
      ...(pulls(abilities) && { diagnosticProvider: { interFileDependencies: false, workspaceDiagnostics: false } }),
      hoverProvider: true,
      codeActionProvider: {
        codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite, CodeActionKind.SourceFixAll],
      },
      completionProvider: { triggerCharacters: [...COMPLETION_TRIGGERS] },
      signatureHelpProvider: { triggerCharacters: ['['], retriggerCharacters: [' ', ']'] },
      inlayHintProvider: true,
      codeLensProvider: {},
      documentSymbolProvider: true,
      foldingRangeProvider: true,
      selectionRangeProvider: true,
      documentHighlightProvider: true,
      documentLinkProvider: {},
      documentFormattingProvider: true,
      documentRangeFormattingProvider: true,
      definitionProvider: true,
      referencesProvider: true,
      renameProvider: { prepareProvider: true },
      semanticTokensProvider: {
        legend: { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] },
        full: { delta: true },
        range: true,
      },
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    },
  };
}
