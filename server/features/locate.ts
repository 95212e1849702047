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

/** The events written at a place: one, several for a motif that is used there, none elsewhere. */
export function eventsAt(passages: readonly Passage[], { index, column }: Path): readonly EventSpot[] {
  const passage = passageOn(passages, index);
  const found: EventSpot[] = [];
  passages[passage]?.events.forEach((source, event) => {
    if (source.source.line === index && covers(source.source.span, column)) found.push({ passage, event, source });
  });
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
