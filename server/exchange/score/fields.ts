import type { SettingKey } from '../../passage/values';

/**
 * Settings of a passage that MusicXML has no element for. They travel in its `miscellaneous-field`s,
 * the place the standard keeps for such values, under these names.
 */
export const FIELDS: readonly (readonly [SettingKey, string])[] = [
  ['instrument', 'passagework.instrument'],
  ['tuning', 'passagework.tuning'],
  ['pitch', 'passagework.pitch'],
  ['hand', 'passagework.hand'],
  ['temperament', 'passagework.temperament'],
  ['harmonics', 'passagework.harmonics'],
];
