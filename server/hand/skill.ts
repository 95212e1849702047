import { BOW_PLACE, IN_TUNE, LANDING_SHIFT, LANDING_SPACING, LANDING_STILL, TOGETHER } from './constants';

/** How surely and how quickly a player plays: what the chances are reckoned with. Errors are standard deviations. */
export interface Skill {
  /** Of a finger put down in a hand that did not move, cents of what then sounds. */
  readonly still: number;
  /** The k of the speed-accuracy law of shifts, s: k D / T mm after D mm in T s. */
  readonly shift: number;
  /** Of the spacing of two fingers set down together, mm. */
  readonly spacing: number;
  /** Of the finger's time against the bow's, s. */
  readonly together: number;
  /** How far a long stopped note may be off and still pass, cents. */
  readonly inTune: number;
  /** Of the bow's contact point, mm. */
  readonly bow: number;
  /** Times that fingers take, as a multiple of a professional's. */
  readonly pace: number;
}

/**
 * Errors and times of a level, as multiples of a professional's. Pace of a student against an advanced player: 0.50 s against
 * 0.42 s that fingers take over a slurred change of notes, high school against university students (Geringer, Allen and
 * MacLeod, Journal of Research in Music Education 53, 2005). The other factors are assumptions: that the more advanced are the more
 * accurate is common knowledge, but no paper that we could read gives it in one measure.
 */
const LEVELS = {
  student: { aim: 1.5, pace: 1.1 * (0.5 / 0.42) },
  advanced: { aim: 1.2, pace: 1.1 },
  professional: { aim: 1, pace: 1 },
} as const;

export type Level = keyof typeof LEVELS;

export const LEVEL_NAMES = Object.keys(LEVELS) as readonly Level[];

/** Where nobody says otherwise. */
const USUAL: Level = 'advanced';

export function skillOf(level: Level = USUAL): Skill {
  const { aim, pace } = LEVELS[level];
  return {
    still: LANDING_STILL * aim,
    shift: LANDING_SHIFT * aim,
    spacing: LANDING_SPACING * aim,
    together: TOGETHER * pace,
    inTune: IN_TUNE,
    bow: BOW_PLACE * aim,
    pace,
  };
}
