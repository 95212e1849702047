import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Problem } from '../rules/rule';

/** A line is held to be finished when nothing has been typed for so long, ms. Assumption: a pause to think, not to read. */
const REST = 4000;

/** Where somebody is typing: what is wrong there is not finished yet, and is told as a soft note until it is. */
export class Typing {
  readonly #carets = new Map<string, { readonly version: number; readonly caret: number; readonly rest: NodeJS.Timeout }>();

  /** `rested` is told of a document in which typing has stopped. */
  constructor(private readonly rested: (uri: string) => void) {}

  /** An edit within a line is typing; one of several places, or of whole lines, is not. `document` is the text after it. */
  changed(document: TextDocument, [change, ...more]: readonly TextDocumentContentChangeEvent[]): void {
    const { uri, version } = document;
    this.ended(uri);
    if (!change || more.length > 0 || !('range' in change)) return;
    if (change.text.includes('\n') || change.range.start.line !== change.range.end.line) return;
    const caret = document.offsetAt(change.range.start) + change.text.length;
    const rest = setTimeout(() => {
      this.#carets.delete(uri);
      this.rested(uri);
    }, REST);
    this.#carets.set(uri, { version, caret, rest });
  }

  /** The document is closed, or nothing in it is being typed any more. */
  ended(uri: string): void {
    clearTimeout(this.#carets.get(uri)?.rest);
    this.#carets.delete(uri);
  }

  /** Tells of the problems of a version whether each is of something unfinished: at the caret, or missing in its line. */
  unfinished(uri: string, version: number, text: string): (problem: Problem) => boolean {
    const typed = this.#carets.get(uri);
    if (typed?.version !== version) return () => false;
    const { caret } = typed;
    const start = text.lastIndexOf('\n', caret - 1) + 1;
    // A setting whose value is about to be typed, and spaces before it.
    const before = text.slice(start, caret).trimEnd();
    const reached = before.endsWith(':') ? start + before.length : caret;
    return ({ severity, code, span }) =>
      severity === 'error' &&
      ((span.start <= caret && reached <= span.end) || (code.endsWith('-missing') && span.start >= start && span.end <= caret));
  }
}
