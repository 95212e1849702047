import { onFifths, scaleSemitone, standings, standsAlone } from '../hand/frame';
import { handPlaces } from '../hand/places';
import type { Instrument } from '../instrument/instrument';
import { type Pitch, semitone, step } from '../music/pitch';
import type { NoteSpec, Passage, PassageEvent } from '../passage/passage';
import { bucket } from './choice';

/**
 * What a player sees of the music around an event before choosing a fingering for it: the key, the beat, what comes before and
 * after. It depends on the notes within `SEEN` events on either side and on nothing else, so an edit changes it no farther off.
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
  /** Groups of notes around it that could lie under the hand on one string: lowest and highest, as steps of the scale. */
  readonly groups: readonly (Group | undefined)[];
  /** For every hand place, how many of the next notes, and of those before, lie under the hand there (at most 8). */
  readonly ahead: Uint8Array;
  readonly behind: Uint8Array;
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

/** Events on either side that surroundings look at. */
export const SEEN = 12;
/** A silence of this many seconds breaks a group of notes. Assumption. */
const BREAK = 0.3;
/** Notes of a bariolage are no longer than this, s. Assumption. */
const FIGURE = 0.2;
/** Mean lengths of notes that part fast passages from slow ones, s. */
const PACES = [0.17, 0.26, 0.45] as const;
/** Notes this far from the lowest can lie under the hand on one string, semitones: a tritone. Common practice, no source. */
const UNDER_HAND = 6;

/** Nothing before and nothing after: an event looked at by itself. */
export function alone(notes: readonly NoteSpec[], instrument: Instrument): Surroundings {
  const seen = new Uint8Array(handPlaces(instrument).length);
  const pitch = melody(notes);
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
  return view.surroundings();
}

/** The note a melody is heard in: the highest that is asked for by its stopped pitch; none for harmonics. */
function melody(notes: readonly NoteSpec[]): Pitch | undefined {
  let best: Pitch | undefined;
  for (const { asked, harmonic } of notes) {
    if (asked.kind !== 'sounding' || harmonic === 'must') return undefined;
    if (!best || semitone(asked.pitch) > semitone(best)) best = asked.pitch;
  }
  return best;
}

const pitches = new WeakMap<
  readonly NoteSpec[],
  { readonly pitch: Pitch; readonly at: number; readonly fifths: number } | null
>();

function heard(
  one: PassageEvent | undefined,
): { readonly pitch: Pitch; readonly at: number; readonly fifths: number } | undefined {
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

class View {
  private readonly events: readonly PassageEvent[];
  private readonly instrument: Instrument;

  constructor(
    private readonly passage: Pick<Passage, 'events' | 'setup' | 'key'>,
    private readonly event: number,
  ) {
    this.events = passage.events;
    this.instrument = passage.setup.instrument;
  }

  private at(offset: number): number | undefined {
    return heard(this.events[this.event + offset])?.at;
  }

  surroundings(): Surroundings {
    const { instrument, event, events } = this;
    const own = heard(events[event]);
    if (!own)
      return {
        ...alone(events[event]!.spec.notes, instrument),
        fifths: this.fifths(),
        ...this.onBeat(),
        key: `h${this.fifths()}${this.onBeat().beat}`,
      };
    const fifths = this.fifths();
    const reach = instrument.family === 'cello' ? 'closed' : fifths;
    const ahead = this.under(reach, 1);
    const behind = this.under(reach, -1);
    const [low, high] = this.range(-3, 3);
    const beat = this.onBeat().beat;
    const [first, last] = this.beatGroup();
    const groups = [this.group(0, 3, fifths), this.group(-4, 4, fifths), this.group(first, last, fifths)];
    const pedal = this.pedal(0);
    const besidePedal = pedal === undefined ? (this.pedal(1) ?? this.pedal(-1)) : undefined;
    let rises = 0;
    let falls = 0;
    for (let d = 1; d <= 6; d++) {
      const next = this.at(d);
      if (next === undefined) break;
      rises = Math.max(rises, next - own.at);
      falls = Math.max(falls, own.at - next);
    }
    const made: Omit<Surroundings, 'key'> = {
      fifths,
      beat,
      from: difference(own.at, this.at(-1)),
      to: difference(this.at(1), own.at),
      highest: high === own.at && low < high,
      lowest: low === own.at && low < high,
      groups,
      ahead,
      behind,
      pedal,
      besidePedal,
      recurs: this.recurs(),
      pace: this.pace(),
      height: this.height(fifths),
      rises,
      falls,
      returns: this.at(-2) === own.at,
      returning: this.at(1) !== undefined && this.at(1) === this.at(-1),
    };
    return { key: keyOf(made), ...made };
  }

  private onBeat(): Pick<Surroundings, 'beat'> {
    const { beat } = this.events[this.event]!;
    return { beat: beat.d !== 1n ? 0 : beat.n === 1n ? 2 : 1 };
  }

  /** The key that holds most of the notes around, near ones more; that of the passage, then the one with fewest signs, where several do. */
  private fifths(): number {
    const near = new Float64Array(SIGNS);
    for (let d = -SEEN; d <= SEEN; d++) {
      const there = heard(this.events[this.event + d]);
      if (!there) continue;
      const weight = SEEN + 1 - Math.abs(d);
      // A scale holds seven neighbours on the line of fifths, from one below its tonic.
      for (let k = 0; k < SIGNS; k++) {
        const place = there.fifths - (k - FLATTEST);
        if (place >= -1 && place <= 5) near[k]! += weight;
        // The raised seventh of its minor is half at home in it.
        else if (place === RAISED_SEVENTH) near[k]! += weight / 2;
      }
    }
    const written = this.passage.key && signsOf(this.passage.key);
    let best = FLATTEST;
    for (let k = 0; k < SIGNS; k++) if (better(near, k, best, written)) best = k;
    return best - FLATTEST;
  }

  /** Lowest and highest of the notes from one offset to another, up to breaks. */
  private range(first: number, last: number): readonly [number, number] {
    let low = this.at(0)!;
    let high = low;
    for (const sign of [1, -1]) {
      for (let d = 1; d <= (sign > 0 ? last : -first); d++) {
        const earlier = this.events[this.event + (sign > 0 ? d - 1 : -d)];
        const next = this.at(sign * d);
        if (next === undefined || !earlier || earlier.spec.rest >= BREAK) break;
        low = Math.min(low, next);
        high = Math.max(high, next);
      }
    }
    return [low, high];
  }

  private group(first: number, last: number, fifths: number): Group | undefined {
    const [low, high] = this.range(first, last);
    return high > low && high - low <= UNDER_HAND
      ? { low: nearestStep(low, fifths), high: nearestStep(high, fifths) }
      : undefined;
  }

  /** Offsets of the first and the last note on the same beat. */
  private beatGroup(): readonly [number, number] {
    const beat = (offset: number) => this.events[this.event + offset]?.beat;
    const own = beat(0)!.floor();
    let first = 0;
    while (first > -SEEN && same(beat(first - 1), beat(first))) first--;
    let last = 0;
    while (last < SEEN && same(beat(last), beat(last + 1))) last++;
    return [first, last];

    function same(one: ReturnType<typeof beat>, two: ReturnType<typeof beat>): boolean {
      return one !== undefined && two !== undefined && one.compare(two) < 0 && one.floor().equals(own) && two.floor().equals(own);
    }
  }

  private under(reach: number | 'closed', sign: 1 | -1): Uint8Array {
    const count = new Uint8Array(handPlaces(this.instrument).length);
    const still = new Uint8Array(count.length).fill(1);
    for (let d = 1; d <= 8; d++) {
      const pitch = this.at(sign * d);
      if (pitch === undefined) break;
      const covered = coverage(pitch, reach, this.instrument);
      for (let place = 0; place < count.length; place++) {
        if (still[place] && covered[place]) count[place]!++;
        else still[place] = 0;
      }
    }
    return count;
  }

  /** Seconds of a note of this event or one beside it. */
  private seconds(offset: number): number {
    return this.events[this.event + offset]?.spec.seconds ?? Number.POSITIVE_INFINITY;
  }

  private pace(): number {
    let sum = 0;
    let count = 0;
    for (let d = -8; d <= 8; d++) {
      const seconds = this.seconds(d);
      if (!Number.isFinite(seconds)) continue;
      sum += seconds;
      count++;
    }
    return bucket(sum / count, PACES);
  }

  private height(fifths: number): number {
    const top = this.instrument.strings[0]!.pitch;
    return Math.max(1, nearestStep(this.range(-8, 8)[1], fifths) - 3 - step(top));
  }

  private recurs(): boolean {
    const own = this.at(0);
    if (this.seconds(0) >= FIGURE) return false;
    let returns = 0;
    let between = 0;
    const others = new Set<number>();
    for (let d = -6; d <= 6; d++) {
      const there = this.at(d);
      if (d === 0 || there === undefined) continue;
      if (d % 2 === 0) returns += Number(there === own);
      else {
        between += Number(there === own);
        others.add(there);
      }
    }
    return returns >= 4 && between <= 2 && others.size >= 2;
  }

  /** The open string (0 for I) that an event plays as the pedal of a figure: every second or fourth note, others between. */
  private pedal(offset: number): number | undefined {
    const own = this.at(offset);
    if (own === undefined || this.seconds(offset) > FIGURE) return undefined;
    const string = this.instrument.strings.findIndex((one) => semitone(one.pitch) === own);
    if (string < 0) return undefined;
    const same = (d: number) => this.at(offset + d) === own;
    for (const lag of [2, 4]) {
      let back = 0;
      while (back < 4 && same(-lag * (back + 1))) back++;
      let on = 0;
      while (on < 4 && same(lag * (on + 1))) on++;
      if (back + on < (lag === 2 ? 4 : 3)) continue;
      if ((same(1) || same(-1)) && count(same, EVEN) <= count(same, ODD)) continue;
      return string;
    }
    return undefined;
  }
}

/** Of the relative minor, from the tonic of the major on the line of fifths: G# in C. */
const RAISED_SEVENTH = 8;

const EVEN = [-8, -6, -4, -2, 2, 4, 6, 8];
const ODD = [-7, -5, -3, -1, 1, 3, 5, 7];

function count(same: (d: number) => boolean, offsets: readonly number[]): number {
  return offsets.reduce((sum, d) => sum + Number(same(d)), 0);
}

function difference(to: number | undefined, from: number | undefined): number | undefined {
  return to === undefined || from === undefined ? undefined : to - from;
}

/** Keys from seven flats to seven sharps. */
const FLATTEST = 7;
const SIGNS = 2 * FLATTEST + 1;

function better(near: Float64Array, k: number, best: number, written: number | undefined): boolean {
  const favour = (one: number) => near[one]! + (one - FLATTEST === written ? SEEN : 0);
  const [a, b] = [favour(k), favour(best)];
  return a !== b ? a > b : Math.abs(k - FLATTEST) < Math.abs(best - FLATTEST);
}

function signsOf({ tonic, mode }: NonNullable<Passage['key']>): number {
  return onFifths(tonic) - (mode === 'minor' ? 3 : 0);
}

/** The step of the scale, white keys above C0, nearest to a pitch. */
function nearestStep(at: number, fifths: number): number {
  const about = Math.round(((at - 12) * 7) / 12);
  let best = about;
  for (let steps = about - 2; steps <= about + 2; steps++) {
    if (Math.abs(scaleSemitone(steps, fifths) - at) < Math.abs(scaleSemitone(best, fifths) - at)) best = steps;
  }
  return best;
}

const covers = new WeakMap<Instrument, Map<string, Uint8Array>>();

/** For every hand place, 1 where a pitch lies under the hand there, at most a semitone out of the frame, or is an open string. */
function coverage(pitch: number, reach: number | 'closed', instrument: Instrument): Uint8Array {
  let known = covers.get(instrument);
  if (!known) {
    known = new Map();
    covers.set(instrument, known);
  }
  const key = `${reach} ${pitch}`;
  let covered = known.get(key);
  if (!covered) {
    covered = new Uint8Array(handPlaces(instrument).length);
    for (const string of instrument.strings) {
      const semitones = pitch - semitone(string.pitch);
      if (semitones === 0) covered.fill(1);
      if (semitones <= 0) continue;
      for (const finger of [1, 2, 3, 4] as const) {
        for (const { place, bend } of standings(
          finger,
          semitones,
          string.pitch,
          reach === 'closed' ? 0 : reach,
          instrument.family,
        )) {
          if (Math.abs(bend) <= 1 && standsAlone(finger, bend, instrument.family)) covered[place] = 1;
        }
      }
    }
    known.set(key, covered);
  }
  return covered;
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
  } = made;
  const flags = Number(highest) + 2 * Number(lowest) + 4 * Number(returns) + 8 * Number(returning) + 16 * Number(recurs);
  const lying = groups.map((group) => (group ? `${group.low}-${group.high}` : '')).join(' ');
  return `${fifths} ${beat} ${from} ${to} ${flags} ${lying} ${ahead.join('')} ${behind.join('')} ${pedal} ${besidePedal} ${pace} ${height} ${rises} ${falls}`;
}
