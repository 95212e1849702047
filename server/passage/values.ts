import type { HandChoice } from '../hand/hands';
import type { Tuning } from '../instrument/build';
import type { Family } from '../instrument/instrument';
import type { Key } from '../music/interval';
import type { Meter } from '../music/meter';
import type { Temperament } from '../music/temperament';
import { type HarmonicsMode, readHarmonics, readKey, readMeter, readTemperament, readTempo } from './music-values';
import type { Tempo } from './passage';
import { readPlayerPath } from './player-choice';
import { type InstrumentChoice, readHand, readInstrument, readStandard, readTuning } from './player-values';
import type { Reading } from './reading';

export { BOUNDS } from './reading';

/** What each setting's value is once read. */
export interface SettingValues {
  readonly title: string;
  readonly instrument: InstrumentChoice;
  readonly tuning: Tuning;
  /** Hz of A4. */
  readonly pitch: number;
  readonly hand: HandChoice;
  /** Path of a player file, from the passage's folder downwards. */
  readonly player: string;
  readonly tempo: Tempo;
  readonly meter: Meter;
  readonly key: Key;
  readonly temperament: Temperament;
  readonly harmonics: HarmonicsMode;
}

export type SettingKey = keyof SettingValues;

/** How each setting's value is read. `family` is the instrument it is read for. */
export const READERS: { readonly [K in SettingKey]: (text: string, family: Family) => Reading<SettingValues[K]> } = {
  title: (text) => ({ value: text }),
  instrument: readInstrument,
  tuning: readTuning,
  pitch: readStandard,
  hand: readHand,
  player: readPlayerPath,
  tempo: readTempo,
  meter: readMeter,
  key: readKey,
  temperament: readTemperament,
  harmonics: readHarmonics,
};
