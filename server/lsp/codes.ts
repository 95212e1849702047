import type {
  CodeActionKind,
  CompletionItemKind,
  DiagnosticSeverity,
  DocumentHighlightKind,
  FoldingRangeKind,
  InsertTextFormat,
  MarkupKind,
  MessageType,
  SymbolKind,
  TextDocumentSyncKind,
} from 'vscode-languageserver-protocol';

/**
 * The protocol's own numbers and words, as far as they are used here (Language Server Protocol 3.17). Checked against the
 * protocol's published types; its library is left out of what ships, where it would be a quarter of the server.
 */
export const SEVERITY = { error: 1, warning: 2, information: 3, hint: 4 } as const satisfies Record<string, DiagnosticSeverity>;
export const MESSAGE = { error: 1, warning: 2 } as const satisfies Record<string, MessageType>;
export const INCREMENTAL: TextDocumentSyncKind = 2;
export const SNIPPET: InsertTextFormat = 2;
export const MARKDOWN: MarkupKind = 'markdown';
export const PLAIN_TEXT: MarkupKind = 'plaintext';
export const QUICK_FIX: CodeActionKind = 'quickfix';
export const REWRITE: CodeActionKind = 'refactor.rewrite';
export const FIX_ALL: CodeActionKind = 'source.fixAll';
export const COMPLETION = {
  function: 3,
  property: 10,
  value: 12,
  keyword: 14,
  snippet: 15,
  enumMember: 20,
  constant: 21,
} as const satisfies Record<string, CompletionItemKind>;
export const SYMBOL = { module: 2, function: 12, number: 16 } as const satisfies Record<string, SymbolKind>;
export const HIGHLIGHT = { read: 2, write: 3 } as const satisfies Record<string, DocumentHighlightKind>;
export const FOLD = { comment: 'comment', region: 'region' } as const satisfies Record<string, FoldingRangeKind>;

/** Error codes of the protocol; those of JSON-RPC come with its library. */
export const FAILURE = {
  notInitialized: -32002,
  requestFailed: -32803,
  serverCancelled: -32802,
  contentModified: -32801,
  requestCancelled: -32800,
} as const;
