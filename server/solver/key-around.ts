import { onFifths, scaleSemitone } from '../hand/frame';
import type { Passage } from '../passage/passage';
import type { View } from './view';

/** Notes on either side that tell the key. */
const NEAR = 12;

/** Sharps of the key (flats negative) that holds most of the notes around, near ones more; that of the passage, then the one with fewest signs, where several do. */
export function fifthsAround(view: View): number {
  const near = new Float64Array(SIGNS);
  for (let d = -NEAR; d <= NEAR; d++) {
    const there = view.note(d);
    if (!there) continue;
    const weight = NEAR + 1 - Math.abs(d);
    // A scale holds seven neighbours on the line of fifths, from one below its tonic.
    const tonic = there.fifths + FLATTEST;
    for (let k = Math.max(0, tonic - 5); k <= Math.min(SIGNS - 1, tonic + 1); k++) near[k]! += weight;
    // The raised seventh of its minor is half at home in it.
    if (tonic >= RAISED_SEVENTH && tonic - RAISED_SEVENTH < SIGNS) near[tonic - RAISED_SEVENTH]! += weight / 2;
  }
  const written = view.passage.key && signsOf(view.passage.key);
  let best = FLATTEST;
  for (let k = 0; k < SIGNS; k++) if (better(near, k, best, written)) best = k;
  return best - FLATTEST;
}

/** Keys from seven flats to seven sharps. */
export const FLATTEST = 7;
const SIGNS = 2 * FLATTEST + 1;

function better(near: Float64Array, k: number, best: number, written: number | undefined): boolean {
  const favour = (one: number) => near[one]! + (one - FLATTEST === written ? NEAR : 0);
  const [a, b] = [favour(k), favour(best)];
  return a !== b ? a > b : Math.abs(k - FLATTEST) < Math.abs(best - FLATTEST);
}

function signsOf({ tonic, mode }: NonNullable<Passage['key']>): number {
  return onFifths(tonic) - (mode === 'minor' ? 3 : 0);
}

/** Of the relative minor, from the tonic of the major on the line of fifths: G# in C. */
const RAISED_SEVENTH = 8;

/** The step of the scale, white keys above C0, nearest to a pitch. */
export function nearestStep(at: number, fifths: number): number {
  const about = Math.round(((at - 12) * 7) / 12);
  let best = about;
  for (let steps = about - 2; steps <= about + 2; steps++) {
    if (Math.abs(scaleSemitone(steps, fifths) - at) < Math.abs(scaleSemitone(best, fifths) - at)) best = steps;
  }
  return best;
}
