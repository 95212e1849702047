import { later } from '../l10n/translate';

/**
 * Every term a cost can have, in nats. Two kinds: minus the log of a chance (`placement`), and effort: habits learned from
 * players (see habits.ts), and what harmonics and stretches ask (see effort.ts). The words are shown to players.
 */
export const TERMS = {
  placement: later('the risk that the note does not speak in tune'),
  position: later('the position the hand is in'),
  string: later('the string, and how high on it'),
  finger: later('the finger, for a note of this length'),
  frame: later('a finger out of the frame of the key'),
  open: later('open string or stopped'),
  ahead: later('how much of what comes, and came, lies under the hand'),
  pedal: later('the strings of a bariolage'),
  shift: later('moving the hand along the string'),
  crossing: later('changing strings with the bow'),
  repeat: later('the same pitch fingered otherwise'),
  hop: later('the same finger lifted and set elsewhere, or fingers climbing over one another'),
  slide: later('a slide that changes string or finger, or goes back'),
  pitch: later('how far the harmonic is off the temperament'),
  stretch: later('the hand opened beyond what is comfortable'),
  extension: later('a finger reaching farther from the hand than is comfortable'),
  firmness: later('the firm stopping finger that a fourth harmonic needs'),
  stopper: later('a stopping finger other than the first'),
  soft: later('a harmonic that speaks softly where the dynamic is loud, or hardly rings when plucked'),
  loneThird: later('a third harmonic outside a double stop'),
  height: later('a harmonic, or a plucked note, high over the body of the instrument'),
  covering: later('one finger over two strings'),
  beside: later('two fingers side by side where one would cover both strings'),
  crossed: later('the higher note of a double stop on the lower string'),
  ornament: later('the finger that trills above the note, alternates with it, or plucks it'),
  doubtful: later('a harmonic that a rule would warn about: off pitch, clashing, or with no room to miss'),
  delicacy: later('a harmonic that leaves the bow little choice'),
} as const;

export type TermName = keyof typeof TERMS;
