import { onFifths } from '../hand/frame';
import { type Pitch, semitone } from '../music/pitch';
import type { NoteSpec, Passage, PassageEvent } from '../passage/passage';

/** Events on either side that are heard, at most. */
const HEARD = 18;
/** Events on either side that anything hangs on: as many as are heard, and one more, which says whether the last is among harmonics. */
export const SEEN = HEARD + 1;

/**
 * The notes around one event, by their offset from it (0 is its own): as far as it is known where their fingers go, for a silence of
 * its own, a pitch that can't be played, or a harmonic that may be touched at several places says nothing of the hand.
 */
export class View {
  private readonly events: readonly PassageEvent[];
  /** What is heard from `HEARD` events before to as many after, as far as it goes without a gap; the event's own may be one. */
  private readonly window: (Heard | undefined)[] = new Array(2 * HEARD + 1).fill(undefined);

  constructor(
    readonly passage: Pick<Passage, 'events' | 'setup' | 'key'>,
    private readonly event: number,
  ) {
    this.events = passage.events;
    const line = heardIn(passage);
    this.window[HEARD] = line.heard(event);
    for (const sign of [-1, 1]) {
      for (let d = 1; d <= HEARD; d++) {
        const heard = line.heard(event + sign * d);
        if (!heard) break;
        this.window[HEARD + sign * d] = heard;
      }
    }
  }

  note(offset: number): Heard | undefined {
    return this.window[HEARD + offset];
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

/** What is heard of a passage's events, each worked out once, for its neighbours ask again. */
class HeardLine {
  private readonly known = new Map<number, Heard | null>();
  private readonly strings: ReadonlySet<number>;
  private readonly lowest: number;
  private readonly highest: number;

  constructor(
    private readonly events: readonly PassageEvent[],
    readonly setup: Passage['setup'],
  ) {
    this.strings = new Set(setup.instrument.strings.map((string) => semitone(string.pitch)));
    this.lowest = Math.min(...this.strings);
    this.highest = Math.max(...this.strings) + BOARD;
  }

  heard(at: number): Heard | undefined {
    let known = this.known.get(at);
    if (known === undefined) {
      known = this.hear(at) ?? null;
      this.known.set(at, known);
    }
    return known ?? undefined;
  }

  private hear(at: number): Heard | undefined {
    const note = heardAs(this.events[at]);
    if (!note || note.at < this.lowest || note.at > this.highest) return undefined;
    return note.middle && !this.inTheMiddle(note, at) ? undefined : note;
  }

  /** A harmonic among stopped notes that sounds the octave of a string lies in its middle; among harmonics the hand may be anywhere. */
  private inTheMiddle(note: Heard, at: number): boolean {
    const among = [at - 1, at + 1].some((next) => this.events[next]?.spec.notes.some(({ harmonic }) => harmonic === 'must'));
    return !among && this.strings.has(note.at - 12);
  }
}

const lines = new WeakMap<readonly PassageEvent[], HeardLine>();

function heardIn({ events, setup }: Pick<Passage, 'events' | 'setup'>): HeardLine {
  let line = lines.get(events);
  if (line?.setup !== setup) {
    line = new HeardLine(events, setup);
    lines.set(events, line);
  }
  return line;
}

/** Semitones of fingerboard above an open string that count as playable here: three octaves. */
const BOARD = 36;

export interface Heard {
  readonly pitch: Pitch;
  /** Semitones, as `semitone` counts. */
  readonly at: number;
  /** Place on the line of fifths. */
  readonly fifths: number;
  /** A harmonic that lies at the place of this pitch only if that is the middle of a string. */
  readonly middle: boolean;
}

/** The pitch at whose place the highest note is fingered, a touched one's included; none with an artificial harmonic, for which the hand is its own. */
export function highestOf(notes: readonly NoteSpec[]): Pitch | undefined {
  let best: Pitch | undefined;
  for (const { asked } of notes) {
    if (asked.kind === 'artificial') return undefined;
    const pitch = asked.kind === 'diamond' ? asked.touch : asked.pitch;
    if (!best || semitone(pitch) > semitone(best)) best = pitch;
  }
  return best;
}

const places = new WeakMap<readonly NoteSpec[], Heard | null>();

function heardAs(one: PassageEvent | undefined): Heard | undefined {
  if (!one) return undefined;
  const { notes } = one.spec;
  let known = places.get(notes);
  if (known === undefined) {
    const pitch = highestOf(notes);
    const middle = notes.some(({ asked, harmonic }) => asked.kind === 'sounding' && harmonic === 'must');
    known = pitch ? { pitch, at: semitone(pitch), fifths: onFifths(pitch), middle } : null;
    places.set(notes, known);
  }
  return known ?? undefined;
}
