import type { SceneNote, ScenePassage } from '../../server/protocol/scene';
import { asPlayed } from '../../server/scene/sound/as-played';
import type { Chance } from './chance';

export type Fault = 'none' | 'broken' | 'partial' | 'late' | 'off' | 'missing';

/** One note as it is played: the truth that listening is held against. */
export interface Played {
  readonly event: number;
  readonly note: number;
  readonly scene: SceneNote;
  /** Seconds. */
  readonly at: number;
  readonly seconds: number;
  readonly fault: Fault;
  /** What sounds, Hz; 0 for nothing. */
  readonly hz: number;
  /** The partial of the stopped string that sounds. */
  readonly partial: number;
  /** Above what is written at the take's tuning. */
  readonly cents: number;
  /** Seconds of scratching before it speaks. */
  readonly delay: number;
  /** Cents to either side, and Hz. */
  readonly vibrato: { readonly depth: number; readonly rate: number };
  readonly dynamic: string;
}

export interface Performance {
  readonly played: readonly Played[];
  readonly seconds: number;
  /** Cents above the file's A4. */
  readonly tuning: number;
}

export interface Manner {
  /** Share of notes with a fault. */
  readonly faults: number;
  readonly vibrato: boolean;
  readonly falseStart: boolean;
  readonly takes: number;
  /** Share by which the tempo changes from start to end. */
  readonly drift: number;
}

/** Standard deviation of a player's beats, s (assumption). */
const UNEVEN = 0.012;

/** Plays a passage as a person might, faults put in. */
export function perform(chance: Chance, written: ScenePassage, manner: Manner): Performance {
  const { passage, written: indices } = asPlayed(written);
  const tuning = chance.between(-25, 25);
  const pace = chance.between(0.85, 1.35);
  const played: Played[] = [];
  let now = chance.between(0.3, 1);
  const runs = [
    ...(manner.falseStart ? [chance.whole(2, Math.max(2, passage.events.length - 2))] : []),
    ...Array.from({ length: manner.takes }, () => passage.events.length),
  ];
  for (const length of runs) {
    const events = passage.events.slice(0, length);
    const begun = now;
    const whole = events.at(-1)!.onset + events.at(-1)!.seconds;
    const place = (onset: number) => begun + pace * (onset + ((manner.drift / 2) * onset * onset) / Math.max(1, whole));
    for (const [i, event] of events.entries()) {
      const at = place(event.onset) + UNEVEN * chance.normal();
      const end = place(event.onset + event.seconds);
      for (const [note, scene] of event.notes.entries()) {
        if (scene.held) continue;
        const detached = chance.is(0.3) ? 0.9 : 1;
        played.push(
          faulty(chance, manner, scene, tuning, {
            event: indices[i]!,
            note,
            scene,
            at,
            seconds: (end - at) * detached,
            dynamic: event.dynamic,
          }),
        );
      }
    }
    now = place(whole) + chance.between(0.5, 1.6);
  }
  return { played, seconds: now + 0.3, tuning };
}

type Base = Pick<Played, 'event' | 'note' | 'scene' | 'at' | 'seconds' | 'dynamic'>;

function faulty(chance: Chance, manner: Manner, scene: SceneNote, tuning: number, base: Base): Played {
  const harmonic = scene.kind === 'natural' || scene.kind === 'artificial';
  const fixed = scene.kind === 'open' || scene.kind === 'natural';
  const kinds: readonly Fault[] = harmonic
    ? ['broken', 'partial', 'late', 'missing']
    : scene.kind === 'open'
      ? ['late', 'missing']
      : ['off', 'late', 'missing'];
  const asked = chance.is(manner.faults) ? chance.pick(kinds) : 'none';
  // A note must be long enough to be late and still be heard.
  const fault: Fault = asked === 'late' && base.seconds < 0.3 ? 'none' : asked;
  const others = [2, 3, 4, 5, 6].filter((n) => n !== scene.partial && n * (scene.hz / scene.partial) < 5000);
  const partial = fault === 'broken' ? 1 : fault === 'partial' ? chance.pick(others) : scene.partial;
  const cents = fault === 'off' ? chance.between(10, 60) * (chance.is(0.5) ? 1 : -1) : fixed ? 0 : 4 * chance.normal();
  const hz = fault === 'missing' ? 0 : (scene.hz / scene.partial) * partial * 2 ** ((tuning + cents) / 1200);
  const vibrato =
    manner.vibrato && !fixed && chance.is(0.7)
      ? { depth: chance.between(10, 28), rate: chance.between(4.8, 6.5) }
      : { depth: 0, rate: 5 };
  return {
    ...base,
    fault,
    hz,
    partial,
    cents,
    vibrato,
    delay: fault === 'late' ? chance.between(0.09, Math.min(0.3, base.seconds * 0.45)) : 0,
  };
}
