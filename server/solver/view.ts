import { onFifths } from '../hand/frame';
import { type Pitch, semitone } from '../music/pitch';
import type { NoteSpec, Passage, PassageEvent } from '../passage/passage';

/** Events on either side that are looked at, at most. */
export const SEEN = 18;

/**
 * The notes around one event, by their offset from it (0 is its own): as far as they are heard one after the other, for a harmonic, a
 * silence of its own or a pitch that can't be played says nothing of the hand.
 */
export class View {
  private readonly events: readonly PassageEvent[];
  private readonly first: number;
  private readonly last: number;

  constructor(
    readonly passage: Pick<Passage, 'events' | 'setup' | 'key'>,
    private readonly event: number,
  ) {
    this.events = passage.events;
    const { strings } = passage.setup.instrument;
    const lowest = Math.min(...strings.map((string) => semitone(string.pitch)));
    const highest = Math.max(...strings.map((string) => semitone(string.pitch))) + BOARD;
    const heard = (at: number) => {
      const note = heardAs(this.events[at]);
      return note !== undefined && note.at >= lowest && note.at <= highest;
    };
    let first = event;
    while (event - first < SEEN && heard(first - 1)) first--;
    let last = event;
    while (last - event < SEEN && heard(last + 1)) last++;
    this.first = first;
    this.last = last;
  }

  note(offset: number): Heard | undefined {
    const at = this.event + offset;
    return at < this.first || at > this.last ? undefined : heardAs(this.events[at]);
  }

  /** Semitones of the note's pitch. */
  at(offset: number): number | undefined {
    return this.note(offset)?.at;
  }

  /** Seconds of the note and of the silence after it; the note's own place in its bar. */
  seconds(offset: number): number | undefined {
    return this.note(offset) && this.events[this.event + offset]!.spec.seconds;
  }

  rest(offset: number): number {
    return this.events[this.event + offset]!.spec.rest;
  }

  beat(offset: number): PassageEvent['beat'] | undefined {
    return offset === 0 || this.note(offset) ? this.events[this.event + offset]!.beat : undefined;
  }
}

/** Semitones of fingerboard above an open string that count as playable here: three octaves. */
const BOARD = 36;

export interface Heard {
  readonly pitch: Pitch;
  /** Semitones, as `semitone` counts. */
  readonly at: number;
  /** Place on the line of fifths. */
  readonly fifths: number;
}

/** The note a melody is heard in: the highest that is asked for by its stopped pitch; none for harmonics. */
export function melody(notes: readonly NoteSpec[]): Pitch | undefined {
  let best: Pitch | undefined;
  for (const { asked, harmonic } of notes) {
    if (asked.kind !== 'sounding' || harmonic === 'must') return undefined;
    if (!best || semitone(asked.pitch) > semitone(best)) best = asked.pitch;
  }
  return best;
}

const pitches = new WeakMap<readonly NoteSpec[], Heard | null>();

function heardAs(one: PassageEvent | undefined): Heard | undefined {
  if (!one) return undefined;
  const { notes } = one.spec;
  let known = pitches.get(notes);
  if (known === undefined) {
    const pitch = melody(notes);
    known = pitch ? { pitch, at: semitone(pitch), fifths: onFifths(pitch) } : null;
    pitches.set(notes, known);
  }
  return known ?? undefined;
}
