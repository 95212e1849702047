import { hoverAt } from '../features/hover';
import type { Snapshot } from '../workspace/snapshot';

/** A file of so many events keeps its reader waiting for its fingering anyway. */
const LONG = 2000;

/**
 * Explains the first note of the first long file to nobody. Code that has never run is slow, and in a long file the hover is what is asked first;
 * this once its fingering comes some milliseconds later instead.
 */
export function warmUp(): (snapshot: Snapshot) => void {
  let warm = false;
  return (snapshot) => {
    const { tree, solutions, settings } = snapshot;
    const events = solutions.flatMap(({ passage }) => passage.events);
    if (warm || events.length < LONG) return;
    warm = true;
    const { line, span } = events[0]!.source;
    hoverAt(snapshot, tree.lines[line]!.start + span.start, {
      safeChance: settings.safeChance,
      target: { uri: '', version: 0 },
      others: false,
    });
  };
}
