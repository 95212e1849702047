import type { Tempo } from '../music/meter';
import { type Exact, lasting, NO_TIME } from '../music/time';
import type { Atom } from './atom';
import type { BarTrack } from './bar-track';
import { UNMARKED } from './context';
import type { LineEvent } from './line-music';
import { askedOrnament } from './ornament';
import type { EventSpec, NoteSpec } from './passage';
import { internSpec } from './spec';

/** An event of the line while what follows it is still being read. */
export interface Draft {
  readonly event: { -readonly [K in keyof LineEvent]: LineEvent[K] };
  readonly specs: readonly NoteSpec[];
  readonly slide: boolean;
  readonly plucked: boolean;
  /** The second of two notes by turns. */
  readonly alternates: boolean;
  readonly dynamic: EventSpec['dynamic'];
  readonly held: EventSpec['held'];
  /** Whole notes that it sounds; grace notes take some of it. */
  sounds: Exact;
  rest: Exact;
  slurred: boolean;
}

const SILENCE = internSpec({ notes: [], seconds: 0, rest: 0, slurred: false, dynamic: UNMARKED, slide: false, held: [] });

/** An event with its place in the text and in time, and nothing else yet. */
export function draftEvent(
  { span, definition }: Pick<Atom, 'span' | 'definition'>,
  duration: Exact,
  { closed, beat }: Pick<BarTrack, 'closed' | 'beat'>,
  tempo: Tempo,
): Draft['event'] {
  const event: Draft['event'] = { spec: SILENCE, span, notes: [], bar: closed, beat, duration, tempo };
  if (definition) event.definition = definition;
  return event;
}

/** An event without notes, at the head of a passage that begins with a rest. */
export function silentDraft(event: Draft['event'], dynamic: Draft['dynamic'], rest: Exact): Draft {
  const none = { slide: false, plucked: false, alternates: false, slurred: false };
  return { event, specs: [], dynamic, held: [], sounds: NO_TIME, rest, ...none };
}

export function finished(
  { event, specs, slide, dynamic, held, sounds, rest, slurred, ...draft }: Draft,
  whole: Exact,
): LineEvent {
  const seconds = lasting(sounds, whole).valueOf();
  const demand = { notes: specs, seconds, rest: rest.valueOf(), slurred, dynamic, slide, held };
  event.spec = internSpec({
    ...demand,
    ...askedOrnament(event.marks),
    ...(draft.plucked && { plucked: true as const }),
    ...(draft.alternates && { alternates: true as const }),
  });
  return event;
}
