import type { Passage, PassageEvent } from '../../passage/passage';

/** Indices of the events at which a slur begins, and of those at which one ends. */
export interface Slurs {
  readonly starts: ReadonlySet<number>;
  readonly ends: ReadonlySet<number>;
}

/** The slurs to print: strokes as they are written, but not those that nothing except ties holds together. */
export function slursOf({ events }: Passage): Slurs {
  const starts = new Set<number>();
  const ends = new Set<number>();
  let first = 0;
  for (const [i, event] of events.entries()) {
    if (event.bowsOn && i + 1 < events.length) continue;
    let bowed = false;
    for (let j = first + 1; j <= i; j++) {
      const { held, notes } = (events[j] as PassageEvent).spec;
      bowed ||= held.length < notes.length;
    }
    if (bowed) {
      starts.add(first);
      ends.add(i);
    }
    first = i + 1;
  }
  return { starts, ends };
}
