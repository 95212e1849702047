import type { Dynamic } from '../../../grammar/tree';
import { usualTuning } from '../../instrument/build';
import { keyAlter } from '../../music/interval';
import { type Pitch, pitchName, step } from '../../music/pitch';
import type { Asked, Bar, Passage, Tempo } from '../../passage/passage';
import { type Clef, clefOf } from '../../scene/staff/clef';
import { plainValue, typeOf } from './note-values';
import type { Part } from './part';
import { element, text, type Xml } from './xml';

/** The attributes of the first measure: divisions, key, meter and clef. */
export function attributesOf(part: Part, bar: Bar): Xml {
  const { passage, divisions } = part;
  return element('attributes', {}, text('divisions', divisions), keyMark(passage), meterMark(bar), clef(passage));
}

function keyMark({ key }: Passage): Xml | undefined {
  if (!key) return undefined;
  const fifths = (['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const).reduce((sum, letter) => sum + keyAlter(letter, key), 0);
  return element('key', {}, text('fifths', fifths), text('mode', key.mode));
}

export function meterMark({ meter }: Bar): Xml {
  if (!meter) return element('time', {}, element('senza-misura', {}));
  return element('time', {}, text('beats', meter.count), text('beat-type', meter.unit));
}

/** Sign, and the line that it stands on. */
const CLEF_MARKS: Readonly<Record<Clef, readonly [string, number]>> = {
  treble: ['G', 2],
  alto: ['C', 3],
  tenor: ['C', 4],
  bass: ['F', 4],
};

function clef({ setup, events }: Passage): Xml {
  const printed = events.flatMap(({ spec }) => spec.notes.flatMap(({ asked }) => pitchesOf(asked).map(step)));
  const [sign, line] = CLEF_MARKS[clefOf(setup.instrument.family, printed)];
  return element('clef', {}, text('sign', sign), text('line', line));
}

function pitchesOf(asked: Asked): readonly Pitch[] {
  return asked.kind === 'sounding' ? [asked.pitch] : asked.kind === 'artificial' ? [asked.stop, asked.touch] : [asked.touch];
}

export function wordsMark(words: string): Xml {
  return element('direction', { placement: 'above' }, element('direction-type', {}, text('words', words)));
}

export function dynamicMark(level: Dynamic): Xml {
  return element('direction', { placement: 'below' }, element('direction-type', {}, element('dynamics', {}, element(level, {}))));
}

/** The metronome mark, and the same for playback, in quarters. */
export function tempoMark({ beat, bpm }: Tempo): Xml {
  const value = plainValue(beat);
  const quarters = Math.round(beat.valueOf() * 4 * bpm * 1000) / 1000;
  const sound = element('sound', { tempo: String(quarters) });
  const type = value && typeOf(value);
  if (!value || !type) return sound;
  const dots = Array.from({ length: value.dots }, () => element('beat-unit-dot', {}));
  const mark = element('metronome', {}, text('beat-unit', type), ...dots, text('per-minute', bpm));
  return element('direction', { placement: 'above' }, element('direction-type', {}, mark), sound);
}

/** A retuning, printed at the start: string 1 is the highest. Undefined for the usual strings. */
export function scordaturaMark({ setup }: Passage): Xml | undefined {
  const { strings, family } = setup.instrument;
  const usual = usualTuning(family).map(pitchName).join(' ');
  if (
    [...strings]
      .reverse()
      .map((s) => pitchName(s.pitch))
      .join(' ') === usual
  )
    return undefined;
  const accords = strings.map(({ number, pitch }) =>
    element('accord', { string: String(number) }, ...pitchParts(pitch, 'tuning-')),
  );
  return element('direction', { placement: 'above' }, element('direction-type', {}, element('scordatura', {}, ...accords)));
}

/** Step, alteration and octave, under the names that the surrounding element gives them. */
export function pitchParts(pitch: Pitch, prefix: '' | 'tuning-'): readonly (Xml | undefined)[] {
  return [
    text(`${prefix}step`, pitch.letter),
    pitch.alter === 0 ? undefined : text(`${prefix}alter`, pitch.alter),
    text(`${prefix}octave`, Math.floor(step({ ...pitch, alter: 0 }) / 7)),
  ];
}
