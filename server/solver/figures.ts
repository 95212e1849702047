import { semitone } from '../music/pitch';
import type { View } from './view';

/** Notes of a figure of the bow (bariolage, an alternating note) are shorter than this, s. Assumption. */
const FIGURE = 0.2;

function slow(view: View, offset: number): boolean {
  return (view.seconds(offset) ?? Number.POSITIVE_INFINITY) > FIGURE;
}

/** True for the note of a fast figure that comes back every second time, at any pitch. Where the music begins or ends, a figure may be shorter. */
export function recurs(view: View): boolean {
  const own = view.at(0);
  if (slow(view, 0)) return false;
  let returns = 0;
  let between = 0;
  let whole = true;
  const others = new Set<number>();
  for (let d = -6; d <= 6; d++) {
    const there = view.at(d);
    if (there === undefined) whole = false;
    if (d === 0 || there === undefined) continue;
    if (d % 2 === 0) returns += Number(there === own);
    else {
      between += Number(there === own);
      others.add(there);
    }
  }
  return returns >= (whole ? 4 : 3) && between <= 2 && others.size >= 2;
}

/** The open string (0 for I) that an event plays as the pedal of a figure: every second or fourth note, others between. */
export function pedal(view: View, offset: number): number | undefined {
  const own = view.at(offset);
  if (own === undefined || slow(view, offset)) return undefined;
  const string = view.passage.setup.instrument.strings.findIndex((one) => semitone(one.pitch) === own);
  if (string < 0) return undefined;
  const same = (d: number) => view.at(offset + d) === own;
  for (const lag of [2, 4]) {
    let back = 0;
    while (back < 4 && same(-lag * (back + 1))) back++;
    let on = 0;
    while (on < 4 && same(lag * (on + 1))) on++;
    const whole = view.at(-lag * (back + 1)) !== undefined && view.at(lag * (on + 1)) !== undefined;
    if (back + on < (whole && lag === 2 ? 4 : 3)) continue;
    if ((same(1) || same(-1)) && count(same, EVEN) <= count(same, ODD)) continue;
    return string;
  }
  return undefined;
}

const EVEN = [-8, -6, -4, -2, 2, 4, 6, 8];
const ODD = [-7, -5, -3, -1, 1, 3, 5, 7];

function count(same: (d: number) => boolean, offsets: readonly number[]): number {
  return offsets.reduce((sum, d) => sum + Number(same(d)), 0);
}
