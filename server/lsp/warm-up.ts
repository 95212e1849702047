import { hoverAt } from '../features/hover';
import type { Snapshot } from '../workspace/snapshot';

/** A passage of so many events keeps its reader waiting for its fingering anyway. */
const LONG = 2000;

/**
 * Explains the first note of the first long passage to nobody. Code that has never run is slow, and in a long one the hover is what is asked first;
 * this once its fingering comes some milliseconds later instead.
 */
export function warmUp(): (snapshot: Snapshot) => void {
  let warm = false;
  return (snapshot) => {
    if (warm) return;
    const { tree, solutions, settings } = snapshot;
    const long = solutions.find(({ events }) => events.length >= LONG);
    if (!long) return;
    warm = true;
    const { line, span } = long.passage.events[0]!.source;
    hoverAt(snapshot, tree.lines[line]!.start + span.start, {
      safeChance: settings.safeChance,
      target: { uri: '', version: 0 },
      others: false,
    });
  };
}
