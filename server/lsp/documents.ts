import type {
  DidChangeTextDocumentParams,
  DidCloseTextDocumentParams,
  DidOpenTextDocumentParams,
  Position,
  TextDocumentContentChangeEvent,
} from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';

/** The open documents as the client tells them. A change of a document that is not open is none. */
export class Documents {
  readonly #open = new Map<string, TextDocument>();

  get(uri: string): TextDocument | undefined {
    return this.#open.get(uri);
  }

  opened({ textDocument: { uri, languageId, version, text } }: DidOpenTextDocumentParams): TextDocument {
    const document = TextDocument.create(uri, languageId, version, text);
    this.#open.set(uri, document);
    return document;
  }

  changed({ textDocument: { uri, version }, contentChanges }: DidChangeTextDocumentParams): TextDocument | undefined {
    const document = this.#open.get(uri);
    if (!document) return undefined;
    for (const change of contentChanges) TextDocument.update(document, [inside(document, change)], version);
    return document;
  }

  closed({ textDocument: { uri } }: DidCloseTextDocumentParams): string {
    this.#open.delete(uri);
    return uri;
  }
}

/** A place past the end of a line or of the text means that end; the library's line table does not survive it otherwise. */
function inside(document: TextDocument, change: TextDocumentContentChangeEvent): TextDocumentContentChangeEvent {
  if (!('range' in change)) return change;
  const within = (position: Position) => document.positionAt(document.offsetAt(position));
  return { text: change.text, range: { start: within(change.range.start), end: within(change.range.end) } };
}
