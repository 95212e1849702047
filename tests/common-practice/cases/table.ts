import type { Case } from '../case';
import { ARPEGGIOS } from './arpeggios';
import { CELLO_FIGURES } from './cello-figures';
import { CELLO_HELD_BACK } from './cello-held-back';
import { CELLO_PAIRS } from './cello-pairs';
import { CELLO_POSITIONS } from './cello-positions';
import { CELLO_SCALES } from './cello-scales';
import { CELLO_THUMB } from './cello-thumb';
import { DOUBLE_STOPS } from './double-stops';
import { FIGURES } from './figures';
import { HARMONICS } from './harmonics';
import { HELD_BACK as VIOLIN_HELD_BACK } from './held-back';
import { MELODY } from './melody';
import { POSITIONS } from './positions';
import { SCALES } from './scales';
import { SECOND_LOOK, SECOND_LOOK_MENDED } from './second-look';
import { VIOLA } from './viola';
import { VIOLA_HELD_BACK } from './viola-held-back';
import { VIOLA_POSITIONS } from './viola-positions';

export const HELD_BACK: readonly Case[] = [...VIOLIN_HELD_BACK, ...CELLO_HELD_BACK, ...VIOLA_HELD_BACK, ...SECOND_LOOK];

export const TABLE: readonly Case[] = [
  ...SCALES,
  ...ARPEGGIOS,
  ...FIGURES,
  ...MELODY,
  ...POSITIONS,
  ...DOUBLE_STOPS,
  ...HARMONICS,
  ...CELLO_FIGURES,
  ...CELLO_SCALES,
  ...CELLO_POSITIONS,
  ...CELLO_THUMB,
  ...CELLO_PAIRS,
  ...VIOLA,
  ...VIOLA_POSITIONS,
  ...SECOND_LOOK_MENDED,
];
