import { standings, standsAlone } from '../hand/frame';
import { handPlaces } from '../hand/places';
import type { Instrument } from '../instrument/instrument';
import { semitone } from '../music/pitch';
import { FLATTEST } from './key-around';
import type { View } from './view';

/** Notes that are looked at, before or after. */
const MOST = 8;

/** For every hand place, how many of the next notes (sign 1) or of those before (-1) lie under the hand there, one after the other. */
export function underHand(view: View, fifths: number, sign: 1 | -1): Uint8Array {
  const { instrument } = view.passage.setup;
  const count = new Uint8Array(handPlaces(instrument).length);
  const still = new Uint8Array(count.length).fill(1);
  for (let d = 1; d <= MOST; d++) {
    const pitch = view.at(sign * d);
    if (pitch === undefined) break;
    const covered = coverage(pitch, instrument.family === 'cello' ? 0 : fifths, instrument);
    for (let place = 0; place < count.length; place++) {
      if (still[place] && covered[place]) count[place]!++;
      else still[place] = 0;
    }
  }
  return count;
}

const covers = new WeakMap<Instrument, Map<number, Uint8Array>>();

/** For every hand place, 1 where a pitch lies under the hand there, at most a semitone out of the frame, or is an open string. */
function coverage(pitch: number, fifths: number, instrument: Instrument): Uint8Array {
  let known = covers.get(instrument);
  if (!known) {
    known = new Map();
    covers.set(instrument, known);
  }
  // Signs go from seven flats to seven sharps.
  const key = pitch * 16 + fifths + FLATTEST;
  let covered = known.get(key);
  if (!covered) {
    covered = new Uint8Array(handPlaces(instrument).length);
    for (const string of instrument.strings) {
      const semitones = pitch - semitone(string.pitch);
      if (semitones === 0) covered.fill(1);
      if (semitones <= 0) continue;
      for (const finger of [1, 2, 3, 4] as const) {
        for (const { place, bend } of standings(finger, semitones, string.pitch, fifths, instrument.family)) {
          if (Math.abs(bend) <= 1 && standsAlone(finger, bend, instrument.family)) covered[place] = 1;
        }
      }
    }
    known.set(key, covered);
  }
  return covered;
}
