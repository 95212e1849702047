import type { EventSpec, Mark } from './passage';

/** What a mark asks of the left hand; a short trill is one. */
export function askedOrnament(marks: readonly Mark[] = []): EventSpec['ornament'] {
  for (const { word } of marks) {
    if (word === 'trill' || word === 'inverted-mordent') return 'trill';
    if (word === 'pizz-left') return 'plucked';
  }
  return undefined;
}

/** True where a mark says that a note is plucked whatever holds around it. */
export function isPlucked(marks: readonly Mark[] = []): boolean {
  return marks.some(({ word }) => word === 'pizz-left' || word === 'pizz-snap');
}
