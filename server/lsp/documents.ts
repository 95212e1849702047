import { type Position, type TextDocumentContentChangeEvent, TextDocuments } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';

/**
 * The open documents as the client tells them.
 *
 * @param changed is told what was changed in an open document, before anyone hears of the new text
 */
export function openDocuments(
  changed: (document: TextDocument, changes: readonly TextDocumentContentChangeEvent[]) => void,
): TextDocuments<TextDocument> {
  return new TextDocuments({
    create(...of) {
      const document = TextDocument.create(...of);
      // The library makes its table of lines when it is first asked for a place, and in a long text whoever asks would wait for it.
      void document.lineCount;
      return document;
    },
    update(document, changes, version) {
      for (const change of changes) TextDocument.update(document, [inside(document, change)], version);
      changed(document, changes);
      return document;
    },
  });
}

/** A place past the end of a line or of the text means that end; the library's line table does not survive it otherwise. */
function inside(document: TextDocument, change: TextDocumentContentChangeEvent): TextDocumentContentChangeEvent {
  if (!('range' in change)) return change;
  const within = (position: Position) => document.positionAt(document.offsetAt(position));
  return { text: change.text, range: { start: within(change.range.start), end: within(change.range.end) } };
}
