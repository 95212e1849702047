import { onFifths } from '../hand/frame';
import { handPlaces } from '../hand/places';
import type { Instrument } from '../instrument/instrument';
import { step } from '../music/pitch';
import type { NoteSpec, Passage, PassageEvent } from '../passage/passage';
import { bucket } from './choice';
import { pedal, recurs } from './figures';
import { FLATTEST, fifthsAround, nearestStep } from './key-around';
import { underHand } from './under-hand';
import { highestOf, View } from './view';

/**
 * What a player sees of the music around an event before choosing a fingering for it: the key, the beat, what comes before and
 * after. It depends on the notes within `SEEN` events (see view.ts) on either side and on nothing else, so an edit changes it no farther off.
 */
export interface Surroundings {
  /** Says all of it: two events with equal keys and equal demands have the same states. */
  readonly key: string;
  /** Sharps of the key around here, flats negative. */
  readonly fifths: number;
  /** 2 on the first beat of a bar, 1 on another beat, 0 between beats. */
  readonly beat: 0 | 1 | 2;
  /** Semitones from the event before and to the next; undefined after and before a break. */
  readonly from: number | undefined;
  readonly to: number | undefined;
  /** Among the three notes on either side, where there are any that differ. */
  readonly highest: boolean;
  readonly lowest: boolean;
  /** Groups of notes around it, of more than one pitch: lowest and highest, as steps of the scale. */
  readonly groups: readonly (Group | undefined)[];
  /** For every hand place, how many of the next notes, and of those before, lie under the hand there (at most 8). */
  readonly ahead: Uint8Array;
  readonly behind: Uint8Array;
  /** The same for every hand place of every string, string by string: how many lie on that string. */
  readonly stringAhead: Uint8Array;
  readonly stringBehind: Uint8Array;
  /** An open string that comes back every second or fourth note: 0 for I; this event's own, and a neighbour's. */
  readonly pedal: number | undefined;
  readonly besidePedal: number | undefined;
  /** The note of a fast figure that comes back every second time, at any pitch. */
  readonly recurs: boolean;
  /** Pace of the passage around, mean seconds of a note: 0 fast to 3 slow. */
  readonly pace: number;
  /** The lowest position in which the fourth finger reaches the highest note around on the highest string, 1 at least. */
  readonly height: number;
  /** How far the melody of the next six notes rises above, and falls below, this one, semitones. */
  readonly rises: number;
  readonly falls: number;
  /** This pitch is that of two events ago; the one before comes next again. */
  readonly returns: boolean;
  readonly returning: boolean;
}

export interface Group {
  readonly low: number;
  readonly high: number;
}

/** Names of the groups of `Surroundings.groups`, in order. */
export const GROUPS = ['next', 'around', 'beat'] as const;

/** A silence of this many seconds breaks a group of notes. Assumption. */
const BREAK = 0.3;
/** Mean lengths of notes that part fast passages from slow ones, s. */
const PACES = [0.17, 0.26, 0.45] as const;

/** Notes of one beat that are looked at on either side. */
const BEAT_MOST = 12;

/** Nothing before and nothing after: an event looked at by itself. */
export function alone(notes: readonly NoteSpec[], instrument: Instrument): Surroundings {
  const seen = new Uint8Array(handPlaces(instrument).length);
  const onStrings = new Uint8Array(seen.length * instrument.strings.length);
  const pitch = highestOf(notes);
  return {
    key: '',
    fifths: pitch ? Math.max(-FLATTEST, Math.min(FLATTEST, onFifths(pitch) - 1)) : 0,
    beat: 1,
    from: undefined,
    to: undefined,
    highest: false,
    lowest: false,
    groups: GROUPS.map(() => undefined),
    ahead: seen,
    behind: seen,
    stringAhead: onStrings,
    stringBehind: onStrings,
    pedal: undefined,
    besidePedal: undefined,
    recurs: false,
    pace: bucket(0.3, PACES),
    height: 1,
    rises: 0,
    falls: 0,
    returns: false,
    returning: false,
  };
}

/** What stands around one event of a passage. */
export function surroundingsOf(passage: Pick<Passage, 'events' | 'setup' | 'key'>, event: number): Surroundings {
  const view = new View(passage, event);
  const fifths = fifthsAround(view);
  const { beat: on } = passage.events[event]!;
  const beat = on.d !== 1n ? 0 : on.n === 1n ? 2 : 1;
  const own = view.at(0);
  if (own === undefined) {
    const { spec } = passage.events[event]!;
    return { ...alone(spec.notes, passage.setup.instrument), fifths, beat, key: `${fifths} ${beat}` };
  }
  const [low, high] = range(view, -3, 3);
  const ownPedal = pedal(view, 0);
  const { rises, falls } = onward(view, own);
  const next = underHand(view, fifths, 1);
  const before = underHand(view, fifths, -1);
  const made: Omit<Surroundings, 'key'> = {
    fifths,
    beat,
    from: difference(own, view.at(-1)),
    to: difference(view.at(1), own),
    highest: high === own && low < high,
    lowest: low === own && low < high,
    groups: [group(view, 0, 3, fifths), group(view, -4, 4, fifths), group(view, ...beatGroup(view), fifths)],
    ahead: next.hand,
    behind: before.hand,
    stringAhead: next.string,
    stringBehind: before.string,
    pedal: ownPedal,
    besidePedal: ownPedal === undefined ? (pedal(view, 1) ?? pedal(view, -1)) : undefined,
    recurs: recurs(view),
    pace: pace(view),
    height: height(view, fifths),
    rises,
    falls,
    returns: view.at(-2) === own,
    returning: view.at(1) !== undefined && view.at(1) === view.at(-1),
  };
  return { key: keyOf(made), ...made };
}

/** How far the next six notes rise above and fall below a pitch. */
function onward(view: View, own: number): Pick<Surroundings, 'rises' | 'falls'> {
  let rises = 0;
  let falls = 0;
  for (let d = 1; d <= 6; d++) {
    const next = view.at(d);
    if (next === undefined) break;
    rises = Math.max(rises, next - own);
    falls = Math.max(falls, own - next);
  }
  return { rises, falls };
}

/** Lowest and highest of the notes from one offset to another, up to breaks. */
function range(view: View, first: number, last: number): readonly [number, number] {
  let low = view.at(0)!;
  let high = low;
  for (const sign of [1, -1]) {
    for (let d = 1; d <= (sign > 0 ? last : -first); d++) {
      const next = view.at(sign * d);
      if (next === undefined || view.rest(sign > 0 ? d - 1 : -d) >= BREAK) break;
      low = Math.min(low, next);
      high = Math.max(high, next);
    }
  }
  return [low, high];
}

function group(view: View, first: number, last: number, fifths: number): Group | undefined {
  const [low, high] = range(view, first, last);
  return high > low ? { low: nearestStep(low, fifths), high: nearestStep(high, fifths) } : undefined;
}

/** Offsets of the first and the last note on the same beat. */
function beatGroup(view: View): readonly [number, number] {
  const own = beatOf(view.beat(0)!);
  let first = 0;
  while (first > -BEAT_MOST && same(first - 1, first)) first--;
  let last = 0;
  while (last < BEAT_MOST && same(last, last + 1)) last++;
  return [first, last];

  function same(before: number, after: number): boolean {
    const [one, two] = [view.beat(before), view.beat(after)];
    return one !== undefined && two !== undefined && beatOf(one) === own && beatOf(two) === own && one.n * two.d < two.n * one.d;
  }
}

/** The beat that a time falls in, both counted from 1. */
function beatOf({ n, d }: PassageEvent['beat']): bigint {
  return n / d;
}

function pace(view: View): number {
  let sum = 0;
  let count = 0;
  for (let d = -8; d <= 8; d++) {
    const seconds = view.seconds(d);
    if (seconds === undefined) continue;
    sum += seconds;
    count++;
  }
  return bucket(sum / count, PACES);
}

function height(view: View, fifths: number): number {
  const top = view.passage.setup.instrument.strings[0]!.pitch;
  return Math.max(1, nearestStep(range(view, -8, 8)[1], fifths) - 3 - step(top));
}

function difference(to: number | undefined, from: number | undefined): number | undefined {
  return to === undefined || from === undefined ? undefined : to - from;
}

function keyOf(made: Omit<Surroundings, 'key'>): string {
  const {
    fifths,
    beat,
    from,
    to,
    highest,
    lowest,
    groups,
    ahead,
    behind,
    pedal,
    besidePedal,
    recurs,
    pace,
    height,
    rises,
    falls,
    returns,
    returning,
    stringAhead,
    stringBehind,
  } = made;
  const flags = Number(highest) + 2 * Number(lowest) + 4 * Number(returns) + 8 * Number(returning) + 16 * Number(recurs);
  const lying = groups.map((group) => (group ? `${group.low}-${group.high}` : '')).join(' ');
  return `${fifths} ${beat} ${from} ${to} ${flags} ${lying} ${String.fromCharCode(...ahead, ...behind, ...stringAhead, ...stringBehind)} ${pedal} ${besidePedal} ${pace} ${height} ${rises} ${falls}`;
}
