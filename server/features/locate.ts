import { covering, covers, type Path } from '../../grammar/at';
import type { Passage, PassageEvent } from '../passage/passage';

/** One event of one passage. */
export interface EventSpot {
  readonly passage: number;
  readonly event: number;
  readonly source: PassageEvent;
}

/** The passage that a line belongs to. */
export function passageOn(passages: readonly Passage[], lineIndex: number): number {
  return passages.findIndex(({ lines }) => lines.first <= lineIndex && lineIndex < lines.end);
}

/** Index of the first event that stands on a line or after it; they stand in the order of their lines. */
export function firstFrom(events: readonly PassageEvent[], line: number): number {
  let [low, high] = [0, events.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (events[middle]!.source.line < line) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The events written at a place: one, several for a motif that is used there, none elsewhere. */
export function eventsAt(passages: readonly Passage[], { index, column }: Path): readonly EventSpot[] {
  const passage = passageOn(passages, index);
  const found: EventSpot[] = [];
  const events = passages[passage]?.events ?? [];
  for (let event = firstFrom(events, index); events[event]?.source.line === index; event++) {
    const source = events[event]!;
    if (covers(source.source.span, column)) found.push({ passage, event, source });
  }
  const inside = found.filter(({ source }) => column < source.source.span.end);
  return inside.length ? inside : found;
}

/** The first event that a note in a motif's definition is played as. */
export function firstPlayed(passages: readonly Passage[], { index, column }: Path): EventSpot | undefined {
  for (const [passage, { events }] of passages.entries()) {
    const event = events.findIndex(({ source: { definition } }) => definition?.line === index && covers(definition.span, column));
    const source = events[event];
    if (source) return { passage, event, source };
  }
  return undefined;
}

/** Which note of a double stop is at a place; the first where it can't be told. */
export function noteAt(event: PassageEvent, column: number): number {
  const note = covering(
    event.source.notes.map(({ span }, index) => ({ ...span, index })),
    column,
  );
  return note?.index ?? 0;
}
