import type { Family } from '../instrument/instrument';
import type { FingerPair, Reach } from './hand';

/**
 * The constants of hand and time, each with its unit and source. «Assumption» marks a value chosen to
 * agree with what players report; a player can override the ones about himself (see hands.ts).
 */

const reach = (least: number, comfortable: number, most: number): Reach => ({ least, comfortable, most });

/** Reaches of a medium adult hand on the violin, mm along the string. Assumption. */
export const VIOLIN_REACHES: Readonly<Partial<Record<FingerPair, Reach>>> = {
  '1-2': reach(12, 36, 55),
  '1-3': reach(25, 58, 78),
  '1-4': reach(30, 76, 105),
  '2-3': reach(8, 28, 50),
  '2-4': reach(25, 52, 78),
  '3-4': reach(8, 28, 48),
};

/**
 * The same hand on the viola, mm. It gets used to the wider frame, so what is comfortable grows with the string (374 mm for 328,
 * the usual 16 inches); the most there is and the width of the fingers are the hand's own and stay. Assumption.
 */
export const VIOLA_REACHES: Readonly<Partial<Record<FingerPair, Reach>>> = {
  '1-2': reach(12, 41, 55),
  '1-3': reach(25, 66, 78),
  '1-4': reach(30, 87, 105),
  '2-3': reach(8, 32, 50),
  '2-4': reach(25, 59, 78),
  '3-4': reach(8, 32, 48),
};

/**
 * Reaches of a medium adult hand on the cello, mm: the closed hand covers a minor third from first to
 * fourth finger in first position (98 mm on a 690 mm string), the extended hand a major third (127 mm);
 * the thumb lies behind the hand. Assumption, after common teaching practice.
 */
export const CELLO_REACHES: Readonly<Partial<Record<FingerPair, Reach>>> = {
  '1-2': reach(12, 62, 80),
  '1-3': reach(25, 76, 112),
  '1-4': reach(32, 104, 142),
  '2-3': reach(10, 42, 62),
  '2-4': reach(25, 76, 100),
  '3-4': reach(10, 42, 60),
  'T-1': reach(14, 60, 90),
  'T-2': reach(26, 84, 118),
  'T-3': reach(36, 116, 150),
};

/** How a named hand scales the medium one, no unit. Assumption. */
export const HAND_SCALE = { small: 0.9, medium: 1, large: 1.1 } as const;

/** Ages in years that a child's hand can be given by. From sixteen on it is an adult's. */
export const CHILD_AGES = { least: 3, most: 15 } as const;

/**
 * Length of a child's hand as a share of an adult's, at six years and for each year more, no unit. From mean lengths of 5.1 inches
 * at six and 6.2 at eleven, boys and girls together (middles of the 5th to 95th percentile, survey of the U.S. Department of
 * Health, Education, and Welfare), and 7.2 inches for adults, men and women together (NASA); both as quoted by Healthline,
 * «Average Hand Size». Checked against fingers that grow by 37 % from three to ten (Annals of Anatomy 192, 2010, 156-161).
 */
export const CHILD_HAND = { atSix: 0.708, perYear: 0.031 } as const;

/**
 * Hands that the smaller instruments are made for: a child's by its age in years, at the end of the years in which a size is
 * played, or a small adult's. Sizes not listed are a medium adult's. Common practice, no source.
 */
export const SIZE_HANDS: Readonly<Partial<Record<Family, Readonly<Record<string, number | 'small'>>>>> = {
  violin: { '7/8': 'small', '3/4': 11, '1/2': 9, '1/4': 7, '1/8': 5, '1/16': 4 },
  cello: { '7/8': 'small', '3/4': 13, '1/2': 10 },
};

/**
 * Fingers of different strings may stand side by side, and the higher finger even a little behind the
 * lower one, mm. Assumption.
 */
export const FINGERS_CROSSED = 10;

/** One finger covers two strings when the two places differ by no more than this, mm: a third of a fingertip's width. Assumption. */
export const COVERING_SLACK = 2.5;

/** Landing error of a finger whose hand did not move, mm (standard deviation). Assumption. */
export const LANDING_STILL = 1;

/** Error in the spacing of a two-finger shape, mm (standard deviation). Assumption. */
export const LANDING_SPACING = 1;

/**
 * The k of the linear speed-accuracy law, seconds: a shift of D mm in T s lands with k D / T mm of
 * standard deviation. The law: Schmidt, Zelaznik, Hawkins, Frank and Quinn, Psychological Review 86
 * (1979); the value, for a practised shift guided by ear and hand, is an assumption.
 */
export const LANDING_SHIFT = 0.002;

/** Share of a note's length that a player gives up to the shift after it, no unit. Assumption. */
export const SHIFT_SHARE = 0.5;

/** The shortest time a hand move is reckoned with, s. Assumption. */
export const SHORTEST_MOVE = 0.03;

/** The shortest note that fingers can be put down for one after the other, s: about fourteen a second. Assumption. */
export const QUICKEST_NOTE = 0.07;

/** How far a stopped note may be off before a listener minds, cents. Assumption, from the design of this model. */
export const IN_TUNE = 15;

/** Hand places of the cello are semitones of the string: the first finger's place, 1 to this many above the nut. */
export const HAND_PLACES = 36;

/**
 * Semitones of the first finger in first to seventh position, as they are usually counted: on violin and viola by the steps of the
 * major scale, on the cello by the letters on the A string (the lower ones where there are two). Common practice, no source.
 */
export const USUAL_POSITIONS: Readonly<Record<Family, readonly number[]>> = {
  violin: [2, 4, 5, 7, 9, 11, 12],
  viola: [2, 4, 5, 7, 9, 11, 12],
  cello: [2, 3, 5, 7, 8, 10, 12],
};

/** The cello's neck ends at the hand place so many semitones above the nut: fourth position. Common practice, no source. */
export const NECK_END = 7;

/** Hand places of violin and viola are positions: half position, first to one short of this many. */
export const POSITIONS = 19;

/**
 * The thumb comes onto the string from this many semitones above the nut. At home past the neck's end, it is the octave's lower
 * note on the neck too. Common practice, no source.
 */
export const THUMB_FROM = 3;

/**
 * Where the second, third and fourth finger fall of themselves, as shares of the frame from the first
 * finger to the octave on the next string. Derived from first position: a tone and a half-tone's
 * middle, a fourth, a fifth above the open string. Common practice, no source.
 */
export const FRAME_SHARES = { 2: 0.33, 3: 0.63, 4: 1 } as const;
