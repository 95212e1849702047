import { standings, standsAlone } from '../hand/frame';
import { handPlaces } from '../hand/places';
import type { Instrument } from '../instrument/instrument';
import { semitone } from '../music/pitch';
import { FLATTEST } from './key-around';
import type { View } from './view';

/** Notes that are looked at, before or after. */
const MOST = 8;

/** Hand places under which a pitch lies, or how many pitches do. */
interface Under {
  /** By hand place: on any string. */
  readonly hand: Uint8Array;
  /** By string and hand place, string by string. */
  readonly string: Uint8Array;
}

/** How many of the next notes (sign 1) or of those before (-1) lie under the hand, one after the other. */
export function underHand(view: View, fifths: number, sign: 1 | -1): Under {
  const { instrument } = view.passage.setup;
  const places = handPlaces(instrument).length;
  const runs = { hand: new Uint8Array(places), string: new Uint8Array(places * instrument.strings.length) };
  for (let d = 1; d <= MOST; d++) {
    const pitch = view.at(sign * d);
    if (pitch === undefined) {
      // Where there are no more notes, nothing asks for another string.
      for (let at = 0; at < runs.string.length; at++) if (runs.string[at] === d - 1) runs.string[at] = MOST;
      break;
    }
    const covered = coverage(pitch, instrument.family === 'cello' ? 0 : fifths, instrument);
    goOn(runs.hand, covered.hand, d);
    goOn(runs.string, covered.string, d);
  }
  return runs;
}

/** Counts the `d`-th note where all before it have been counted and it is covered too. */
function goOn(runs: Uint8Array, covered: Uint8Array, d: number): void {
  for (let at = 0; at < runs.length; at++) if (covered[at] && runs[at] === d - 1) runs[at] = d;
}

const covers = new WeakMap<Instrument, Map<number, Under>>();

/** 1 where a pitch lies under the hand, at most a semitone out of the frame; of the hand places by themselves, everywhere for an open string. */
function coverage(pitch: number, fifths: number, instrument: Instrument): Under {
  let known = covers.get(instrument);
  if (!known) {
    known = new Map();
    covers.set(instrument, known);
  }
  // Signs go from seven flats to seven sharps.
  const key = pitch * 16 + fifths + FLATTEST;
  let covered = known.get(key);
  if (!covered) {
    const places = handPlaces(instrument).length;
    covered = { hand: new Uint8Array(places), string: new Uint8Array(places * instrument.strings.length) };
    for (const [index, string] of instrument.strings.entries()) {
      const semitones = pitch - semitone(string.pitch);
      if (semitones === 0) covered.hand.fill(1);
      if (semitones <= 0) continue;
      for (const finger of [1, 2, 3, 4] as const) {
        for (const { place, bend } of standings(finger, semitones, string.pitch, fifths, instrument.family)) {
          if (Math.abs(bend) > 1 || !standsAlone(finger, bend, instrument.family)) continue;
          covered.hand[place] = 1;
          covered.string[index * places + place] = 1;
        }
      }
    }
    known.set(key, covered);
  }
  return covered;
}
