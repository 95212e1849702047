/**
 * Every term a cost can have, in nats. Two kinds: minus the log of a chance (`placement`), and effort: habits learned from
 * players (see habits.ts), and what harmonics and stretches ask (see effort.ts). The words are shown to players.
 */
export const TERMS = {
  placement: 'the risk that the note does not speak in tune',
  position: 'the position the hand is in',
  string: 'the string, and how high on it',
  finger: 'the finger, for a note of this length',
  frame: 'a finger out of the frame of the key',
  open: 'open string or stopped',
  ahead: 'how much of what comes, and came, lies under the hand',
  pedal: 'the strings of a bariolage',
  shift: 'moving the hand along the string',
  crossing: 'changing strings with the bow',
  repeat: 'the same pitch fingered otherwise',
  hop: 'the same finger lifted and set elsewhere, or fingers climbing over one another',
  slide: 'a slide that changes string or finger, or goes back',
  pitch: 'how far the harmonic is off the temperament',
  stretch: 'the hand opened beyond what is comfortable',
  extension: 'a finger reaching farther from the hand than is comfortable',
  firmness: 'the firm stopping finger that a fourth harmonic needs',
  stopper: 'a stopping finger other than the first',
  soft: 'a harmonic that speaks softly where the dynamic is loud, or hardly rings when plucked',
  loneThird: 'a third harmonic outside a double stop',
  height: 'a harmonic, or a plucked note, high over the body of the instrument',
  covering: 'one finger over two strings',
  beside: 'two fingers side by side where one would cover both strings',
  crossed: 'the higher note of a double stop on the lower string',
  ornament: 'the finger that trills above the note, or plucks it',
  doubtful: 'a harmonic that a rule would warn about: off pitch, clashing, or with no room to miss',
  delicacy: 'a harmonic that leaves the bow little choice',
} as const;

export type TermName = keyof typeof TERMS;
