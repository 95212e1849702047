import type {
  DidChangeTextDocumentParams,
  DidCloseTextDocumentParams,
  DidOpenTextDocumentParams,
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
    return document && TextDocument.update(document, contentChanges, version);
  }

  closed({ textDocument: { uri } }: DidCloseTextDocumentParams): string {
    this.#open.delete(uri);
    return uri;
  }
}
