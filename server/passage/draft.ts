import { type Exact, lasting } from '../music/time';
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

export const SILENCE = internSpec({ notes: [], seconds: 0, rest: 0, slurred: false, dynamic: UNMARKED, slide: false, held: [] });

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
