import type { Case } from '../case';
import { ARPEGGIOS } from './arpeggios';
import { DOUBLE_STOPS } from './double-stops';
import { FIGURES } from './figures';
import { HARMONICS } from './harmonics';
import { MELODY } from './melody';
import { POSITIONS } from './positions';
import { SCALES } from './scales';

export { HELD_BACK } from './held-back';

export const TABLE: readonly Case[] = [
  ...SCALES,
  ...ARPEGGIOS,
  ...FIGURES,
  ...MELODY,
  ...POSITIONS,
  ...DOUBLE_STOPS,
  ...HARMONICS,
];
