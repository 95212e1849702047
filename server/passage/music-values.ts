import { oneOf, quoted } from '../../grammar/problems';
import { parseDuration } from '../music/duration';
import type { Key } from '../music/interval';
import type { Meter } from '../music/meter';
import { parsePitch } from '../music/pitch';
import type { Temperament } from '../music/temperament';
import type { Tempo } from './passage';
import { BOUNDS, likeliest, misread, type Reading } from './reading';

export type HarmonicsMode = 'marked' | 'all' | 'allowed';

const HARMONICS: readonly HarmonicsMode[] = ['marked', 'all', 'allowed'];
const METER_UNITS = [1, 2, 4, 8, 16, 32, 64];

export function readTempo(text: string): Reading<Tempo> {
  const [, beatText = '', bpmText = ''] = /^(\S+)\s*=\s*(\d{1,4}(?:\.\d{1,3})?)$/.exec(text) ?? [];
  const beat = parseDuration(beatText);
  const { least, most } = BOUNDS.bpm;
  const bpm = Number(bpmText);
  if (beat && bpm >= least && bpm <= most) return { value: { beat, bpm } };
  const near = Math.min(most, Math.max(least, Number(/(\d{1,4}(?:\.\d{1,3})?)\s*$/.exec(text)?.[1] ?? 96)));
  return misread(`a tempo is a note value and its beats a minute (${least} to ${most}), as in 1/4 = 96`, [
    `${beat ? beatText : '1/4'} = ${near}`,
  ]);
}

export function readMeter(text: string): Reading<Meter> {
  const [, count = '', unit = ''] = /^(\d{1,3})\s*\/\s*(\d{1,3})$/.exec(text) ?? [];
  const { least, most } = BOUNDS.meterCount;
  const beats = Number(count);
  if (count && beats >= least && beats <= most && METER_UNITS.includes(Number(unit))) {
    return { value: { count: beats, unit: Number(unit) } };
  }
  const first = Number(/^\d{1,2}/.exec(text)?.[0] ?? 4);
  const wanted = Number(unit || 4);
  const nearUnit = METER_UNITS.reduce((best, next) => (Math.abs(next - wanted) < Math.abs(best - wanted) ? next : best));
  return misread(`a meter is written as beats and note value, as in 4/4 or 6/8`, [
    `${Math.min(most, Math.max(least, first))}/${nearUnit}`,
  ]);
}

function readTonic(text: string): Key['tonic'] | undefined {
  const pitch = parsePitch(`${text.slice(0, 1).toUpperCase()}${text.slice(1)}4`);
  return pitch && { letter: pitch.letter, alter: pitch.alter };
}

export function readKey(text: string): Reading<Key> {
  const [tonicText = '', modeText = ''] = text.split(/\s+/);
  const tonic = readTonic(tonicText);
  const mode = (['major', 'minor'] as const).find((word) => word === modeText.toLowerCase());
  if (tonic && mode && text.split(/\s+/).length === 2) return { value: { tonic, mode } };
  const name = tonic ? tonicText : 'D';
  return misread(
    `a key is a note name and major or minor, as in D major or F# minor`,
    likeliest(modeText, ['major', 'minor']).map((word) => `${name} ${word}`),
  );
}

export function readTemperament(text: string): Reading<Temperament> {
  const word = text.toLowerCase();
  if (word === 'equal' || word === 'pythagorean') return { value: { kind: word } };
  const [first = '', tonicText] = text.split(/\s+/);
  const tonic = tonicText === undefined ? undefined : readTonic(tonicText);
  if (first.toLowerCase() === 'just' && tonic && text.split(/\s+/).length === 2) return { value: { kind: 'just', tonic } };
  return misread(
    `${quoted(text)} is no temperament; it can be equal, pythagorean, or just with its keynote, as in just D`,
    first.toLowerCase() === 'just' ? ['just D'] : likeliest(text, ['equal', 'pythagorean', 'just D']),
  );
}

export function readHarmonics(text: string): Reading<HarmonicsMode> {
  const value = HARMONICS.find((word) => word === text.toLowerCase());
  if (value) return { value };
  return misread(
    `${quoted(text)} doesn't say which notes are harmonics; it can be ${oneOf(HARMONICS)}`,
    likeliest(text, HARMONICS),
  );
}
