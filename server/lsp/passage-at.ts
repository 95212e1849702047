import { later } from '../l10n/translate';
import type { Solution } from '../solver/solution';
import type { Snapshot } from '../workspace/snapshot';

/** Said of a file without notes. */
export const NO_NOTES = later(
  'There is nothing to write yet: the file has no notes. Write some pitches first, for instance D6o F#6o A6o.',
);

/** The passages that have notes. */
export function withNotes({ solutions }: Snapshot): readonly Solution[] {
  return solutions.filter(({ passage }) => passage.events.length > 0);
}

/** The passage that a line stands in, or the first one for a line above them all. */
export function passageAt(solutions: readonly Solution[], line: number): Solution | undefined {
  return solutions.findLast(({ passage }) => passage.lines.first <= line) ?? solutions[0];
}
