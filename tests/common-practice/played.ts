import type { Finger } from '../../grammar/tree';
import { semitone } from '../../server/music/pitch';
import type { Passage, PassageEvent } from '../../server/passage/passage';
import type { Solution, SolvedEvent } from '../../server/solver/solution';
import type { Way } from '../../server/solver/way';
import { reading } from '../support/reading';

/** One event of a case as the solver plays it, in the terms that cases speak of. */
export interface Played {
  /** From the lowest string up. */
  readonly notes: readonly PlayedNote[];
  /** Of the hand; 0 is half position. */
  readonly position: number;
  readonly event: PassageEvent;
}

export interface PlayedNote {
  readonly string: string;
  readonly kind: Way['kind'];
  /** The stopping finger, or the one that touches a natural harmonic; 0 on the open string. */
  readonly finger: Finger;
  /** The touching finger of an artificial harmonic. */
  readonly touching?: Finger;
  /** Point of division that a harmonic's finger touches: `1/4`. */
  readonly node?: string;
  /** Of the sounding pitch, as numbered by MIDI. */
  readonly pitch: number;
  /** `II3`, `III0`, `II1-4`, `III1o@1/4`: as `fingering.ts` reads it. */
  readonly text: string;
}

/** What there is to know about a case: how it is played, what can't be read or played, and what the rules warn about. */
export interface Performance {
  readonly played: readonly Played[];
  readonly unplayable: readonly string[];
  readonly warnings: readonly string[];
}

export function perform(text: string): Performance {
  const snapshot = reading(text);
  const [passage] = snapshot.resolved.passages;
  const [solution] = snapshot.solutions;
  const events = solution ? playedEvents(passage!, solution.events) : [];
  const serious = snapshot.problems.filter(({ severity }) => severity === 'error');
  return {
    played: events.filter((event) => event !== undefined),
    unplayable: [
      ...serious.map(({ message }) => message),
      ...events.flatMap((event, index) => (event ? [] : [`Note ${index + 1} can't be played.`])),
      ...(snapshot.resolved.passages.length === 1 ? [] : ['A case is one passage.']),
    ],
    warnings: snapshot.problems.filter(({ severity }) => severity === 'warning').map(({ message }) => message),
  };
}

export function playedEvents(passage: Passage, events: Solution['events']): readonly (Played | undefined)[] {
  return events.map((solved, index) => solved && playedEvent(solved, passage, index));
}

function playedEvent({ fingering }: SolvedEvent, passage: Passage, index: number): Played {
  const lowestFirst = [...fingering.ways].sort((one, other) => other.string - one.string);
  return { notes: lowestFirst.map(playedNote), position: fingering.hand.position, event: passage.events[index]! };
}

function playedNote({ stringName, kind, stop, touch, sounding }: Way): PlayedNote {
  const finger = (stop ?? touch)?.finger ?? 0;
  const node = touch && `${touch.k}/${touch.n}`;
  const circle = kind === 'natural' ? `o@${node}` : '';
  const diamond = kind === 'artificial' ? `-${touch!.finger}` : '';
  return {
    string: stringName,
    kind,
    finger,
    ...(kind === 'artificial' && { touching: touch!.finger }),
    ...(node && { node }),
    pitch: semitone(sounding),
    text: `${stringName}${finger}${diamond}${circle}`,
  };
}

/** The whole fingering on one line, the string named where it changes: `IV 0 1 2 3 III 0`, `III+II 3+1 4+2`. */
export function written(played: readonly Played[]): string {
  let strings = '';
  return played
    .flatMap(({ notes }) => {
      const here = notes.map(({ string }) => string).join('+');
      const fingers = notes.map(({ string, text }) => text.slice(string.length)).join('+');
      const words = here === strings ? [fingers] : [here, fingers];
      strings = here;
      return words;
    })
    .join(' ');
}
