/**
 * Every term a cost can have, in nats. Two kinds: minus the log of a chance (`placement`), and effort.
 * The words are shown to players.
 */
export const TERMS = {
  placement: 'landing the fingers: minus the log of the chance that the note speaks in tune',
  pitch: 'how far the harmonic is off the temperament',
  stretch: 'the hand open past comfortable',
  shift: 'moving the hand along the string',
  crossing: 'changing strings with the bow',
  skip: 'passing over a string in between',
  slide: 'a slide that changes string or finger',
  hop: 'the same finger lifted and set elsewhere, or fingers climbing over one another',
  extension: 'a finger reaching out of the frame of the hand',
  weakFinger: 'the fourth finger on a long note',
  firmness: 'the firm stopping finger that a fourth harmonic needs',
  stopper: 'a stopping finger other than the first',
  soft: 'a harmonic that speaks softly where the dynamic is loud',
  loneThird: 'a third harmonic outside a double stop',
  height: 'playing high over the body of the instrument',
  covering: 'one finger over two strings',
  delicacy: 'a harmonic that leaves the bow little choice',
} as const;

export type TermName = keyof typeof TERMS;
