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

/**
 * Error of a finger put down in a hand that did not move, cents of what then sounds (standard deviation), of a professional.
 * Fitted to Geringer, MacLeod and Ellis, String Research Journal 4 (2013), 71-88: four artists' recordings of sixteen bars
 * lay from 17 cents below to 26 above the accompaniment; that normal errors of some 250 notes (our count) span 43 cents takes
 * a deviation of 7.7, of which a part is choice of temperament (Loosen, JASA 93, 1993: professionals' scales lie as near to
 * Pythagorean as to equal intonation). In cents, so in mm it shrinks with the spacing of the semitones up the string.
 */
export const LANDING_STILL = 6.5;

/** What a fingertip can't do better, however narrow the semitones, mm (standard deviation). Assumption. */
export const FINGERTIP = 0.3;

/** Error in the spacing of a two-finger shape, mm (standard deviation), of a professional. Assumption. */
export const LANDING_SPACING = 0.8;

/** How much surer a hand at ease is than one opened as far as it goes: errors there are this much larger, no unit. Assumption. */
export const STRAINED = 0.5;

/**
 * The k of the linear speed-accuracy law, seconds: a shift of D mm in T s lands with k D / T mm of
 * standard deviation, of a professional. The law: Schmidt, Zelaznik, Hawkins, Frank and Quinn, Psychological Review 86
 * (1979). The value is an assumption, set so that practised scales are as sure as players know them to be; untrained hands
 * aiming with a stylus have some ten times as much (from memory of that paper). At one shift a second it leaves next to
 * nothing, which agrees with Chen, Woollacott, Pologe and Moore, Front. Hum. Neurosci. 7:419 (2013): experienced cellists
 * shift so «with precision and stability», one note's error independent of the last. Not fitted to them: we had their summary
 * and not their distributions.
 */
export const LANDING_SHIFT = 0.0005;

/** Share of a note's length that a player gives up to the shift after it, no unit. Assumption. */
export const SHIFT_SHARE = 0.5;

/** The shortest time a hand move is reckoned with, s. Assumption. */
export const SHORTEST_MOVE = 0.03;

/** The shortest note that fingers can be put down for one after the other, s: about fourteen a second. Assumption. */
export const QUICKEST_NOTE = 0.07;

/** How far a long stopped note may be off, heard as its mean pitch, before a listener minds, cents. Assumption, from the design of this model. */
export const IN_TUNE = 15;

/**
 * What a short note may be off beyond that, cents: together 25, half of a quarter tone, where listeners draw the line between
 * in and out of tune in melodies (Larrouy-Maestri, Music & Science, 2018, doi 10.1177/2059204318784582).
 */
export const SHORT_SLACK = 10;

/**
 * Seconds before a miss is heard and the finger begins to correct it. A tone must last about 250 ms for a stable pitch
 * (Open University, Hearing, 11.4, Signal duration), and pitch is told less well below 200 ms (Moore, JASA 54, 1973). That cellists
 * do correct within a note of one second: Chen, Woollacott, Pologe and Moore, Experimental Brain Research,
 * 2008 (doi 10.1007/s00221-008-1380-2).
 */
export const EAR_DELAY = 0.25;

/** Time constant of the correction, s. Assumption. */
export const EAR_SETTLING = 0.25;

/**
 * What vibrato hides on a note that is all vibrato, cents. That it does: Geringer, MacLeod, Madsen and Napoles, Psychology of
 * Music, 2014 (doi 10.1177/0305735614534004): notes 25 cents off are heard as less out of tune with vibrato than without. The amount is an assumption.
 */
export const VIBRATO_SLACK = 5;

/** In a double stop a note may be off by this share of what it may alone: intervals beat. Assumption (compare Hall and Hess, Music Perception 2, 1984). */
export const DOUBLE_STOP_SHARE = 0.75;

/**
 * How far apart finger and bow come on a note, s (standard deviation), of a professional. Baader, Kazennikov and Wiesendanger,
 * Cognitive Brain Research 23 (2005): from 12 ms early to 60 ms late. A span of 72 ms is some five standard deviations of a
 * normal error over a series (assumption).
 */
export const TOGETHER = 0.015;

/**
 * The share of a note that finger and bow may be apart before it is smeared, no unit. Assumption: 60 ms, the most that the
 * same paper found unheard, of a note of 150 ms.
 */
export const TOGETHER_SHARE = 0.4;

/**
 * Seconds until the fingers of a harmonic are where and as firm as it needs them, of a professional: a touching finger alone,
 * and by the interval between the two fingers of an artificial one. Quick playing leaves a stopping finger little force (4.5 N
 * at slow tempos, 1.7 N at fast ones: Kinoshita's laboratory, JASA 140, 3429, 2016), and a fourth wants it firm, a fifth less,
 * and thirds are finicky. The order is common practice; the values are assumptions.
 */
export const TOUCH_SECONDS = 0.02;
export const FORM_SECONDS = {
  octave: 0.05,
  fifth: 0.055,
  sixth: 0.07,
  fourth: 0.07,
  third: 0.085,
  'minor-third': 0.095,
} as const;

/** Two harmonics at once take this much longer than each alone, no unit. Assumption. */
export const DOUBLED = 1.3;

/** By this share of its length a harmonic must have spoken, or it is heard as late. Assumption. */
export const SPOKEN_BY = 0.6;

/** Spread of the time that a harmonic takes: standard deviation of its logarithm. Assumption. */
export const SPEECH_SPREAD = 0.35;

/** How far off its contact point the bow runs, mm (standard deviation), of a professional. Assumption. */
export const BOW_PLACE = 2.5;

/** Beats a minute at which a metronome ends: Maelzel's scale, 40 to 208. Common practice, no source. */
export const FASTEST_BEAT = 208;

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
