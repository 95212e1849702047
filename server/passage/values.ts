import { settingKey } from '../../grammar/settings';
import type { StringNumber, Word } from '../../grammar/tree';
import { fault, type Reading, readValue } from '../../grammar/values/read-value';
import type { KeepNode, Style, ValueNode, ValueNodes } from '../../grammar/values/value-tree';
import { chooseHand } from '../hand/choice';
import type { HandChoice } from '../hand/hands';
import type { Level } from '../hand/skill';
import type { Tuning } from '../instrument/build';
import { chooseInstrument, chooseTuning, type InstrumentChoice } from '../instrument/choice';
import type { Family } from '../instrument/instrument';
import { t } from '../l10n/translate';
import { chooseMeter, chooseStandard, chooseTemperament, chooseTempo } from '../music/choice';
import type { Key } from '../music/interval';
import type { Meter, Tempo } from '../music/meter';
import type { Temperament } from '../music/temperament';
import { choosePlayerPath } from '../player/player-choice';

export type HarmonicsMode = ValueNodes['harmonics']['word'];

/** What every note keeps to from a place of the passage on, unless its own hints or its group's say otherwise. */
export interface Keep {
  /** Of single notes; a double stop has two. */
  readonly string?: StringNumber;
  readonly position?: number;
  readonly open?: false;
}

/** What each setting's value is once read. */
export interface SettingValues {
  readonly title: string;
  readonly instrument: InstrumentChoice;
  readonly tuning: Tuning;
  /** Hz of A4. */
  readonly pitch: number;
  readonly hand: HandChoice;
  readonly level: Level;
  readonly style: Style;
  /** Path of a player file, from the passage's folder downwards. */
  readonly player: string;
  readonly tempo: Tempo;
  readonly meter: Meter;
  readonly key: Key;
  readonly clef: ValueNodes['clef']['word'];
  /** A rehearsal mark. */
  readonly mark: string;
  readonly temperament: Temperament;
  readonly harmonics: HarmonicsMode;
  readonly keep: Keep;
}

export type SettingKey = keyof SettingValues;

/** Which values can be had, of those that are well written. `family` is the instrument they are read for. */
const CHOOSE: { readonly [K in SettingKey]: (parts: never, written: Word, family: Family) => Reading<SettingValues[K]> } = {
  title: ({ text }: ValueNodes['text']) => ({ value: text }),
  instrument: chooseInstrument,
  tuning: chooseTuning,
  pitch: chooseStandard,
  hand: (parts: ValueNodes['hand'], _, family) => chooseHand(parts, family),
  level: ({ word }: ValueNodes['level']) => ({ value: word }),
  style: ({ word }: ValueNodes['style']) => ({ value: word }),
  player: choosePlayerPath,
  tempo: chooseTempo,
  meter: chooseMeter,
  key: ({ tonic: { letter, alter }, mode }: ValueNodes['key']) => ({ value: { tonic: { letter, alter }, mode } }),
  clef: ({ word }: ValueNodes['clef']) => ({ value: word }),
  mark: ({ text }: ValueNodes['text']) => ({ value: text }),
  temperament: chooseTemperament,
  harmonics: ({ word }: ValueNodes['harmonics']) => ({ value: word }),
  keep: chooseKeep,
};

export function isSettingKey(text: string): text is SettingKey {
  return Object.hasOwn(CHOOSE, text);
}

/** The value of a setting whose parts were read. */
export function chooseValue<K extends SettingKey>(
  key: K,
  parts: ValueNode,
  written: Word,
  family: Family,
): Reading<SettingValues[K]> {
  return CHOOSE[key](parts as never, written, family);
}

/** Reads a setting's value from outside of a file. */
export function valueFrom<K extends SettingKey>(key: K, text: string, family: Family): Reading<SettingValues[K]> {
  const written = { start: 0, end: text.length, text };
  const read = readValue(settingKey(key)?.value ?? 'text', written);
  return 'faults' in read ? read : chooseValue(key, read.value, written, family);
}

/** `free` keeps to nothing. */
function chooseKeep(nodes: ValueNodes['keep']): Reading<Keep> {
  let keep: Keep = {};
  for (const node of nodes) {
    const { start, end, ...one } = node;
    const again = Object.keys(one).some((key) => key in keep);
    if (again) return fault(node, givenTwice(node));
    keep = { ...keep, ...one };
  }
  return { value: keep };
}

function givenTwice(node: KeepNode): string {
  if ('string' in node) return t('a string has been given already, and there can be only one');
  return 'position' in node
    ? t('a position has been given already, and there can be only one')
    : t('no open strings has been given already, and there can be only one');
}
