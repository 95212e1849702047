/**
 * What effort costs beside the habits learned from players (habits.ts), in nats: a cost of 0.1 weighs like one failure in ten.
 * No data set says much of harmonics and double stops; these are assumptions, set so that the fingerings agree with common
 * practice (tests/common-practice holds them to it).
 */
export const EFFORT = {
  /** Hand opened from comfortable to the most it has; grows with the square. */
  stretch: 1.2,
  /** A finger past what is comfortable from the first finger, up to the most; grows with the square. */
  farExtension: 0.5,
  /** A finger of a double stop set elsewhere without a move of the hand; and per second of the speed. */
  hop: 0.1,
  hopSpeed: 0.012,
  /** How firmly each artificial harmonic wants its stopping finger: dearest for the fourth. */
  firmness: { octave: 0.02, fifth: 0.03, sixth: 0.08, fourth: 0.08, third: 0.08, 'minor-third': 0.08 },
  /** A stopping finger other than the first, or than the thumb on the cello. */
  stopper: 0.25,
  /** A harmonic of partial 5 and up where the dynamic is f or ff, per partial above 4. */
  soft: { pp: 0, p: 0, mp: 0, mf: 0, f: 0.12, ff: 0.25 },
  /** A major or minor third harmonic outside a double stop. */
  loneThird: 6,
  /** One finger over two strings. */
  covering: 0.08,
  /** Per 100 mm past the middle of the string, for a harmonic. */
  height: 0.25,
  /** Per partial above 4, for a harmonic that leaves the bow little choice. */
  delicacy: 0.04,
  /** A natural harmonic 15 cents off the temperament; grows with the square. */
  pitch: 0.1,
  /** Sliding into a note from another string, or with another finger, or to an open string. */
  brokenSlide: 0.8,
  /** The thumb on the string outside an artificial harmonic. */
  thumb: 0.15,
} as const;
