import type { Position, Range, TextEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Edit, Span } from '../../grammar/tree';
import type { Place } from '../protocol/place';

/** The door between offsets, as everything else counts, and the protocol's lines and characters, for one version of one document. */
export interface Places {
  readonly uri: string;
  readonly version: number;
  offset(position: Position): number;
  span(range: Range): Span;
  place(offset: number): Place;
  range(span: Span): Range;
  edit(edit: Edit): TextEdit;
}

export function placesIn(document: TextDocument): Places {
  const place = (offset: number): Position => document.positionAt(offset);
  const range = ({ start, end }: Span): Range => ({ start: place(start), end: place(end) });
  return {
    uri: document.uri,
    version: document.version,
    offset: (position) => document.offsetAt(position),
    span: ({ start, end }) => ({ start: document.offsetAt(start), end: document.offsetAt(end) }),
    place,
    range,
    edit: ({ span, text }) => ({ range: range(span), newText: text }),
  };
}
