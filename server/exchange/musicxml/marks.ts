import { type DirectionWord, type JumpWord, quotedText, type Saying, type Stress } from '../../../grammar/marks';
import type { Dynamic } from '../../../grammar/tree';
import { usualTuning } from '../../instrument/build';
import { keyAlter } from '../../music/interval';
import type { Tempo } from '../../music/meter';
import { type Pitch, pitchName, step } from '../../music/pitch';
import type { Asked, Bar, Passage } from '../../passage/passage';
import { bestClef, type Clef } from '../../scene/staff/clef';
import { printedDirection } from '../score/printed-words';
import { plainValue, typeOf } from './note-values';
import type { Part } from './part';
import { JUMP_PRINTS } from './signs';
import { text, type Xml, xmlElement } from './xml';

/** The attributes of the first measure: divisions, key, meter and clef. */
export function attributesOf(part: Part, bar: Bar): Xml {
  const { passage, divisions } = part;
  return xmlElement(
    'attributes',
    {},
    text('divisions', divisions),
    keyMark(passage.key),
    meterMark(bar),
    clefMark(bar.clef ?? usualClef(passage)),
    restStyle(bar),
  );
}

/** Bars of silence that are printed as one rest. */
export function restStyle({ together }: Bar): Xml | undefined {
  return together === undefined ? undefined : xmlElement('measure-style', {}, text('multiple-rest', together));
}

export function keyMark(key: Passage['key']): Xml | undefined {
  if (!key) return undefined;
  const fifths = (['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const).reduce((sum, letter) => sum + keyAlter(letter, key), 0);
  return xmlElement('key', {}, text('fifths', fifths), text('mode', key.mode));
}

export function meterMark({ meter }: Bar): Xml {
  if (!meter) return xmlElement('time', {}, xmlElement('senza-misura', {}));
  return xmlElement('time', {}, text('beats', meter.count), text('beat-type', meter.unit));
}

/** Sign, and the line that it stands on. */
const CLEF_MARKS: Readonly<Record<Clef, readonly [string, number]>> = {
  treble: ['G', 2],
  alto: ['C', 3],
  tenor: ['C', 4],
  bass: ['F', 4],
};

/** The clef of a passage that names none. */
export function usualClef({ setup, events }: Passage): Clef {
  const printed = events.flatMap(({ spec }) => spec.notes.flatMap(({ asked }) => pitchesOf(asked).map(step)));
  return bestClef(setup.instrument.family, printed);
}

export function clefMark(clef: Clef): Xml {
  const [sign, line] = CLEF_MARKS[clef];
  return xmlElement('clef', {}, text('sign', sign), text('line', line));
}

/** The clef that a sign on a line is; undefined for one that no string player reads. */
export function clefNamed(sign: string, line: number): Clef | undefined {
  const clefs = Object.entries(CLEF_MARKS) as [Clef, readonly [string, number]][];
  return clefs.find(([, [s, l]]) => s === sign && l === line)?.[0];
}

function pitchesOf(asked: Asked): readonly Pitch[] {
  return asked.kind === 'sounding' ? [asked.pitch] : asked.kind === 'artificial' ? [asked.stop, asked.touch] : [asked.touch];
}

export function wordsMark(words: string): Xml {
  return xmlElement('direction', { placement: 'above' }, xmlElement('direction-type', {}, text('words', words)));
}

export function rehearsalMark(name: string): Xml {
  return xmlElement('direction', { placement: 'above' }, xmlElement('direction-type', {}, text('rehearsal', name)));
}

export function wedge(type: 'crescendo' | 'diminuendo' | 'stop'): Xml {
  return xmlElement('direction', { placement: 'below' }, xmlElement('direction-type', {}, xmlElement('wedge', { type })));
}

/** A text, `pizz.` and the like, with what plays it; undefined for a hairpin. */
export function wayMark(word: Saying): Xml | undefined {
  const quoted = quotedText(word);
  if (quoted !== undefined) return wordsMark(quoted);
  const print = printedDirection(word as DirectionWord);
  if (print === undefined) return undefined;
  const plucked = word === 'pizz' ? 'yes' : word === 'arco' ? 'no' : undefined;
  const sound = plucked && xmlElement('sound', { pizzicato: plucked });
  return xmlElement('direction', { placement: 'above' }, xmlElement('direction-type', {}, text('words', print)), sound);
}

/** A sign at the start of a bar or a word at its end, and the same for playback. */
export function jumpMark(word: JumpWord): Xml {
  const { print, sound, sign } = JUMP_PRINTS[word];
  const printed = sign ? xmlElement(print, {}) : text('words', print);
  const value = sound === 'dacapo' || sound === 'fine' ? 'yes' : '1';
  return xmlElement(
    'direction',
    { placement: 'above' },
    xmlElement('direction-type', {}, printed),
    xmlElement('sound', { [sound]: value }),
  );
}

export function dynamicMark(level: Dynamic | Stress): Xml {
  return xmlElement(
    'direction',
    { placement: 'below' },
    xmlElement('direction-type', {}, xmlElement('dynamics', {}, xmlElement(level, {}))),
  );
}

/** The metronome mark, and the same for playback, in quarters. */
export function tempoMark({ beat, bpm }: Tempo): Xml {
  const value = plainValue(beat);
  const quarters = Math.round(beat.valueOf() * 4 * bpm * 1000) / 1000;
  const sound = xmlElement('sound', { tempo: String(quarters) });
  const type = value && typeOf(value);
  if (!value || !type) return sound;
  const dots = Array.from({ length: value.dots }, () => xmlElement('beat-unit-dot', {}));
  const mark = xmlElement('metronome', {}, text('beat-unit', type), ...dots, text('per-minute', bpm));
  return xmlElement('direction', { placement: 'above' }, xmlElement('direction-type', {}, mark), sound);
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
    xmlElement('accord', { string: String(number) }, ...pitchParts(pitch, 'tuning-')),
  );
  return xmlElement(
    'direction',
    { placement: 'above' },
    xmlElement('direction-type', {}, xmlElement('scordatura', {}, ...accords)),
  );
}

/** Step, alteration and octave, under the names that the surrounding element gives them. */
export function pitchParts(pitch: Pitch, prefix: '' | 'tuning-'): readonly (Xml | undefined)[] {
  return [
    text(`${prefix}step`, pitch.letter),
    pitch.alter === 0 ? undefined : text(`${prefix}alter`, pitch.alter),
    text(`${prefix}octave`, Math.floor(step({ ...pitch, alter: 0 }) / 7)),
  ];
}
