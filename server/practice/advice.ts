import { later, t } from '../l10n/translate';
import type { Setup } from '../passage/passage';
import { outOfTheOrdinary } from '../solver/habits';
import type { SolvedEvent } from '../solver/solution';
import type { TermName } from '../solver/terms';

/** How to practise what makes a note hard, by the term of its cost, as a teacher says it. */
const ADVICE: Readonly<Record<TermName, string>> = {
  placement: later(
    'Sing the note first, then set the finger once; if it is not in tune, roll the finger, and set it better the next time.',
  ),
  pitch: later(
    'This harmonic is not where a tempered instrument has the note: listen to it alone first and let the ear take it as it is.',
  ),
  stretch: later(
    'Open the hand from the fourth finger back toward the first, with the thumb loose, and close it again after every note.',
  ),
  shift: later('Go to the place without the bow, let the arm carry the hand, check that you have arrived, and only then play.'),
  crossing: later('Bow the open strings alone first, in the rhythm of the notes, until the arm changes level by itself.'),
  position: later('Find the position by its first note, silently, and play it only when the hand has settled there.'),
  string: later('Play it once on the string you know best, and make this string sound like that.'),
  finger: later('Let the weight of the arm hang in this finger; it need not press.'),
  frame: later('Sing the half steps first: this finger lies higher or lower than the key would have it.'),
  open: later('Listen to the open string and the stopped note before it, and match their colour with the bow.'),
  ahead: later('Look at the notes that follow before you set the hand: it must be ready for them.'),
  pedal: later('Bow the open strings of the figure alone first, until the arm rocks by itself.'),
  repeat: later('Change the finger without changing the sound: the listener must not hear it.'),
  slide: later('Slide slowly and with little weight, and let the harmonic catch the finger.'),
  hop: later(
    'Lift early and set down slowly: a finger that goes to another place, or over its neighbour, needs time of its own.',
  ),
  extension: later('Reach with the finger and leave the hand where it is; it falls back into its frame after the note.'),
  firmness: later(
    'The lower finger is firm as a nut, the upper one light as a feather: practise the two weights one after the other.',
  ),
  stopper: later('Check the stopped note alone before you touch above it: this finger is not used to being the lower one.'),
  soft: later('It will not be loud: more bow and nearer the bridge, never more weight.'),
  loneThird: later('Give it a fast, light bow near the bridge and look for the point slowly: it has the least room of all.'),
  height: later('Bring the elbow round under the instrument before the hand goes up.'),
  covering: later('Lay the finger flat over both strings and listen to each of them alone before you play both.'),
  beside: later('Try one finger over both strings; two side by side need their tips turned outwards to be in tune.'),
  crossed: later('Hear each note alone first: the string that lies higher sounds lower here.'),
  ornament: later(
    'Play the note without its ornament first, then the ornament slowly with the finger named, and stop before the hand tires.',
  ),
  doubtful: later(
    'Nothing surer lies in reach: play it alone at a whisper until it answers every time, and tell the composer if it does not.',
  ),
  delicacy: later(
    'Keep the bow nearer the bridge than you are used to and quite even: this harmonic forgives little in the bow.',
  ),
};

/** The same for a harmonic, which speaks or does not. */
const HARMONIC_PLACEMENT = later(
  'If it does not speak, look for the point with the finger, a hair at a time, and leave the bow as it is.',
);

export function adviceOn(term: TermName, harmonic: boolean): string {
  return term === 'placement' && harmonic ? t(HARMONIC_PLACEMENT) : t(ADVICE[term]);
}

/** The terms that carry most of a note's difficulty, the largest first: at most three, none that hardly counts. */
export function leadingTerms({ terms }: SolvedEvent, setup: Setup): readonly TermName[] {
  const found = outOfTheOrdinary(terms, setup);
  const largest = found[0]?.[1] ?? 0;
  return found
    .filter(([, nats]) => nats >= largest / 4)
    .map(([name]) => name)
    .slice(0, 3);
}
