import type Fraction from 'fraction.js';
import { t } from '../../l10n/translate';
import { semitone } from '../../music/pitch';
import type { Losses } from './losses';
import type { Measure } from './measure';
import type { Chord } from './written-note';

/** Which of the voices that a part is divided into is read: one of them, or all as double stops. */
export const DIVISI = ['upper', 'lower', 'both'] as const;

export type Divisi = (typeof DIVISI)[number];

/** The measures as one player of a divided part reads them; `divided` counts those in which several voices sound. */
export function undivided(
  measures: readonly Measure[],
  wanted: Divisi | undefined,
  losses: Losses,
): { readonly measures: readonly Measure[]; readonly divided: number } {
  let divided = 0;
  const read = measures.map((measure) => {
    const voices = soundingVoices(measure.chords);
    if (voices.length < 2) return measure;
    divided++;
    if (wanted === undefined || wanted === 'both') return measure;
    return withVoice(measure, (wanted === 'upper' ? voices[0] : voices.at(-1)) as string);
  });
  const bars = t('{count} bars', { count: divided });
  if (divided > 0 && wanted === undefined)
    losses.assumed('', t('that voices which stand on one staff are played together, not divided between players'), bars);
  else if (divided > 0 && wanted === 'upper') losses.leftOut('', t('the lower of divided voices, as asked'), bars);
  else if (divided > 0 && wanted === 'lower') losses.leftOut('', t('the upper of divided voices, as asked'), bars);
  return { measures: read, divided };
}

/** The voices that have notes, the highest first. */
function soundingVoices(chords: readonly Chord[]): readonly string[] {
  const heights = new Map<string, number[]>();
  for (const { voice, notes } of chords) {
    // A diamond or a pitch in brackets may stand in a voice of its own over the note that it belongs to.
    const own = notes.filter(({ diamond, aside }) => !diamond && !aside).map(({ pitch }) => semitone(pitch));
    if (own.length > 0) heights.set(voice, [...(heights.get(voice) ?? []), ...own]);
  }
  const mean = (all: readonly number[]) => all.reduce((sum, each) => sum + each, 0) / all.length;
  return [...heights].sort(([, a], [, b]) => mean(b) - mean(a)).map(([voice]) => voice);
}

/** The measure as the player of one voice reads it: where nothing is written for that voice, not even a rest, all play the same. */
function withVoice(measure: Measure, voice: string): Measure {
  const own = measure.chords.filter((chord) => chord.voice === voice);
  const shared = measure.chords.filter((chord) => chord.voice !== voice && !own.some((other) => overlap(chord, other)));
  const at = (onset: Fraction) => shared.some((chord) => chord.onset.equals(onset));
  return {
    ...measure,
    chords: [...own, ...shared],
    graces: measure.graces.filter(({ chord, onset }) => chord.voice === voice || at(onset)),
  };
}

function overlap(a: Chord, b: Chord): boolean {
  const before = (one: Chord, other: Chord) => one.onset.add(one.duration).compare(other.onset) <= 0;
  return !before(a, b) && !before(b, a);
}
