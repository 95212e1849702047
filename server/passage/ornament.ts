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

/** Trills, and the alteration that is printed over some. */
export const TRILLS: ReadonlyMap<string, number | undefined> = new Map([
  ['trill', undefined],
  ['trill-sharp', 1],
  ['trill-flat', -1],
  ['trill-natural', 0],
]);

/** What marks ask of the left hand; a short trill is one. */
export function askedOrnament(marks: readonly Mark[] = []): Pick<EventSpec, 'ornament' | 'upper'> {
  for (const { word } of marks) {
    const upper = TRILLS.get(word);
    if (TRILLS.has(word) || word === 'inverted-mordent') return { ornament: 'trill', ...(upper !== undefined && { upper }) };
    if (word === 'pizz-left') return { ornament: 'plucked' };
  }
  return {};
}

/** True where a mark says that a note is plucked whatever holds around it. */
export function isPlucked(marks: readonly Mark[] = []): boolean {
  return marks.some(({ word }) => word === 'pizz-left' || word === 'pizz-snap');
}
