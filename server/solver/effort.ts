/**
 * What effort costs, in nats: a cost of 0.1 weighs like one failure in ten. All are assumptions, set so
 * that the fingerings agree with common practice (tests/solver/practice.test.ts holds them to it).
 */
export const EFFORT = {
  /** Hand opened from comfortable to the most it has; grows with the square. */
  stretch: 1.2,
  /** A finger 10 mm from where it falls of itself in the frame; grows with the square. */
  extension: 0.02,
  /** The same past what is comfortable from the first finger, up to the most; grows with the square. */
  farExtension: 0.5,
  /** Moving the hand at all, and by 100 mm. */
  shift: 0.12,
  shiftFar: 0.3,
  /** Moving it at one metre a second; grows with the square of the speed. */
  shiftSpeed: 0.3,
  /** One string over with the bow, at leisure; the same at one note a second is this much dearer, and within one stroke again. */
  crossing: 0.02,
  crossingSpeed: 0.006,
  crossingSlurred: 0.03,
  /** Every string passed over. */
  skip: 0.1,
  skipSlurred: 0.3,
  /** The same finger set elsewhere, or one finger climbing over another, without a move of the hand; and per second of the speed. */
  hop: 0.1,
  hopSpeed: 0.012,
  /** The fourth finger stopping a note of more than this many seconds, each second more, and at most. */
  weakFingerFrom: 0.8,
  weakFinger: 0.05,
  weakFingerMost: 0.15,
  /** How firmly each artificial harmonic wants its stopping finger: dearest for the fourth. */
  firmness: { octave: 0.02, fifth: 0.03, sixth: 0.08, fourth: 0.08, third: 0.08, 'minor-third': 0.08 },
  /** A stopping finger other than the first, or than the thumb on the cello. */
  stopper: 0.25,
  /** A harmonic of partial 5 and up where the dynamic is f or ff, per partial above 4. */
  soft: { pp: 0, p: 0, mp: 0, mf: 0, f: 0.12, ff: 0.25 },
  /** A major or minor third harmonic outside a double stop. */
  loneThird: 6,
  /** Per 100 mm past the middle of the string. */
  height: 0.25,
  /** One finger over two strings. */
  covering: 0.08,
  /** Per partial above 4, for a harmonic that leaves the bow little choice. */
  delicacy: 0.04,
  /** A natural harmonic 15 cents off the temperament; grows with the square. */
  pitch: 0.1,
  /** Sliding into a note from another string, or with another finger, or to an open string. */
  brokenSlide: 0.8,
  /** The thumb on the string outside an artificial harmonic. */
  thumb: 0.15,
} as const;
