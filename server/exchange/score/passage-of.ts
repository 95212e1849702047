import { usualTuning } from '../../instrument/build';
import type { Family } from '../../instrument/instrument';
import { t } from '../../l10n/translate';
import { parsePitch } from '../../music/pitch';
import { type SettingKey, valueFrom } from '../../passage/values';
import { barsOf } from './bars';
import { type Divisi, undivided } from './divisi';
import { FIELDS } from './fields';
import { type Loss, Losses } from './losses';
import { musicLines } from './passage-text';
import { choosePart, isAlsoName, type Score, type ScorePart, type TuneName } from './score';

export interface ImportChoice {
  /** The part to read, by its number counted from 1, or where it is no number by its printed name or id; else the first for a string instrument. */
  readonly part?: string;
  /** Of a file of tunes, the number (`X:`) of the one to read; else the first. */
  readonly tune?: string;
  /** Of voices that share a staff, which one; unless said, all, and that is told. */
  readonly divisi?: Divisi;
}

/** A part of a score as a passage. */
export interface Imported {
  /** A whole `.passage` file. */
  readonly text: string;
  /** Empty where the score has none. */
  readonly title: string;
  /** Printed name of the part that was read. */
  readonly part: string;
  /** All parts of the score, for a choice. */
  readonly parts: readonly { readonly id: string; readonly name: string }[];
  /** All tunes of a file of several, for a choice. */
  readonly tunes: readonly TuneName[];
  /** Bars in which several voices of the part sound. */
  readonly divided: number;
  /** All that the passage does not say as the score does, and what had to be assumed, in the order of the music. */
  readonly losses: readonly Loss[];
}

/**
 * One part of a score as the text of a passage. Nothing of the music is dropped in silence: see `losses`.
 *
 * @throws Unreadable where no part, or more than one, is meant.
 */
export function passageOf(score: Score, choice: ImportChoice): Imported {
  const part = choosePart(score.parts, choice.part);
  const losses = new Losses();
  const { measures, divided } = undivided(part.measures(losses), choice.divisi, losses);
  const tuning = measures.flatMap((m) => m.directions).find((d) => d.tuning !== undefined)?.tuning;
  const family = part.family ?? 'violin';
  const openStrings = tuning?.split(' ').flatMap((name) => parsePitch(name) ?? []) ?? usualTuning(family);
  const bars = barsOf(measures, openStrings, family, losses);
  const music = musicLines(bars, losses);
  const keys = measures.flatMap((m) => (m.key !== undefined ? [{ label: m.label, key: m.key }] : []));
  if (!part.family) {
    losses.notesChanged('', t('a part that names no violin, viola or cello, read as one for violin'), `“${part.name}”`);
  }
  if (isAlsoName(score.parts, part, choice.part))
    losses.changed('', t('a part that could have been meant by its name, as another one has this number'), `“${choice.part}”`);
  const title = score.movement ?? score.work ?? '';
  return {
    text: `${[...header(score, part, family, tuning, keys[0]?.key), ...music].join('\n')}\n`,
    title,
    part: part.name,
    parts: score.parts.map(({ id, name }) => ({ id, name })),
    tunes: score.tunes ?? [],
    divided,
    losses: losses.list(measures.map((m) => m.label)),
  };
}

function header(
  score: Score,
  part: ScorePart,
  family: Family,
  tuning: string | undefined,
  key: string | undefined,
): readonly string[] {
  const lines = score.credits.map((credit) => `// ${credit}`);
  if (score.parts.length > 1) lines.push(`// part: ${part.name}`);
  const values = new Map<SettingKey, string>();
  for (const [setting, field] of FIELDS) {
    const value = score.fields.get(field);
    if (value !== undefined && 'value' in valueFrom(setting, value, family)) values.set(setting, value);
  }
  const title = score.work !== undefined && score.movement !== undefined ? score.work : undefined;
  if (title !== undefined) lines.push(`title: ${title}`);
  lines.push(`instrument: ${values.get('instrument') ?? family}`);
  values.delete('instrument');
  if (tuning !== undefined && 'value' in valueFrom('tuning', tuning, family)) values.set('tuning', tuning);
  for (const [setting, value] of values) lines.push(`${setting}: ${value}`);
  const name = score.movement ?? score.work;
  lines.push('');
  if (name !== undefined) lines.push(`passage: ${name}`);
  if (key !== undefined) lines.push(`key: ${key}`);
  return lines;
}
