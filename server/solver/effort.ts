/**
 * What effort costs beside the habits learned from players (habits.ts), in nats.
 * No data set says much of harmonics and double stops; these are assumptions, set so that the fingerings agree with common
 * practice (tests/common-practice holds them to it).
 */
export const EFFORT = {
  /** What the risk of missing a stopped note weighs, against its nats. */
  care: 0.3,
  /** Hand opened from comfortable to the most it has; grows with the square. */
  stretch: 3.6,
  /** A finger past what is comfortable from the first finger, up to the most; grows with the square. */
  farExtension: 1,
  /** Per semitone that another finger than the lead stands out of the frame. */
  bent: 0.15,
  /** A finger of a double stop set elsewhere without a move of the hand; and per second of the speed. */
  hop: 0.3,
  hopSpeed: 0.036,
  /** How firmly each artificial harmonic wants its stopping finger, beside the delicacy of its partial. */
  firmness: { octave: 0.8, fifth: 0.7, sixth: 0.65, fourth: 0.7, third: 0.65, 'minor-third': 0.5 },
  /** A stopping finger other than the first, on the cello than the thumb. */
  stopper: 0.75,
  /** A harmonic of partial 5 and up where the dynamic is f or ff, per partial above 4. */
  soft: { ppp: 0, pp: 0, p: 0, mp: 0, mf: 0, f: 0.6, ff: 1.5, fff: 1.5 },
  /** A major or minor third harmonic outside a double stop. */
  loneThird: 18,
  /** One finger over two strings. */
  covering: 0.24,
  /** Two fingers side by side on neighbouring strings where one would cover both: a fifth. */
  beside: 0.6,
  /** A chord whose fingers are set in two halves, and each of them that moves in between. */
  halves: { set: 0.5, moved: 1 },
  /** Of two stopped or open notes the higher on the lower string: dearer than any usual way of a pair. */
  crossed: 5,
  /** Per 100 mm past the middle of the string, for a harmonic. */
  height: 0.75,
  /** Per partial above 2: the higher, the less choice a harmonic leaves the bow. */
  delicacy: 0.65,
  /** A natural harmonic 15 cents off the temperament; grows with the square. */
  pitch: 0.3,
  /** Each thing about a harmonic by itself that a rule warns about: where another way costs no more than this, it is taken. */
  doubtful: 1.5,
  /**
   * A trill: struck by the fourth finger, at its full length; by a finger that is not the next one (on the cello it often
   * must be); from the open string; and where no finger is free above, so that the hand has no way but to refinger it.
   */
  trill: { weak: 0.8, skipped: 0.6, open: 1.5, none: 6 },
  /**
   * Two notes by turns: over two strings, for the bow must cross at the same speed; by the third and fourth finger, or a fourth
   * at their full length; by one finger, or where the hand would have to move between them, which no one can.
   */
  turns: { crossing: 2, weak: 0.8, none: 9 },
  /** Plucking with the left hand: where no finger is free above the stopping one, and with the fourth alone. */
  plucked: { none: 5, fourth: 0.3 },
  /** Of a plucked note: per partial of a harmonic above 3, which hardly rings; per 100 mm that it is stopped past the middle, where it is dry. */
  pizzicato: { faint: 0.9, dry: 0.9 },
  /** Sliding into a note from another string, or with another finger, or to an open string; or back, against the melody. */
  brokenSlide: 5,
} as const;
