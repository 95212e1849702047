import type { EventSpec, Mark, Passage } from './passage';

/** The mark of two notes that are played by turns. */
export const BY_TURNS = 'fingered-tremolo';

/** The mark that makes a note one of two played by turns. */
export function turnsMark(marks: readonly Mark[] = []): Mark | undefined {
  return marks.find(({ word }) => word === BY_TURNS);
}

/** True of both of two notes that are played by turns. */
export function isByTurns({ events }: Passage, index: number): boolean {
  return (events[index]?.spec.alternates ?? events[index + 1]?.spec.alternates) === true;
}

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
