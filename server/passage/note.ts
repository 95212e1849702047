import { replacement } from '../../grammar/problems';
import type { NoteNode, PitchNode } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { type Pitch, pitchName, semitone } from '../music/pitch';
import type { Asked, NoteSpec, Setup } from './passage';
import { type About, readPins } from './pins';
import { error, type LineProblem } from './problem';
import { type Sounding, sounding, soundingNames } from './sounding';
import type { HarmonicsMode } from './values';

export interface ReadNote {
  /** Absent where nothing can be made of the note; it then costs its own sound, not its time. */
  readonly spec?: NoteSpec;
  readonly problems: readonly LineProblem[];
}

/**
 * What one written note demands under a setup, and what is wrong with it. Spans count from the note's line. `about` are the
 * hints that hold there for more than this note.
 */
export function readNote(note: NoteNode, setup: Setup, harmonics: HarmonicsMode, about: About = {}): ReadNote {
  const { pins, manners, problems: clashes } = readPins(note, about, setup.instrument.thumb);
  const problems = [...clashes];
  const written = asWritten(note);
  const soundings = sounding(written, setup.instrument);
  if (soundings.length === 0) {
    problems.push(silent(note, written));
    return written.kind === 'artificial' ? { problems } : { spec: { asked: written, harmonic: 'must', pins }, problems };
  }
  let asked = written;
  if (note.expected) {
    const expected = plainPitch(note.expected.pitch);
    if (!soundings.some(({ pitch }) => semitone(pitch) === semitone(expected)))
      problems.push(mismatch(note, expected, soundings));
    else if (written.kind === 'diamond') asked = { ...written, sounding: expected };
  }
  const harmonic = manners.every((manner) => manner === 'natural' || manner === 'artificial')
    ? 'must'
    : manners.every((manner) => manner === 'open' || manner === 'stopped')
      ? 'no'
      : BY_MODE[harmonics];
  return { spec: { asked, harmonic, pins }, problems };
}

const BY_MODE: Readonly<Record<HarmonicsMode, NoteSpec['harmonic']>> = { marked: 'no', all: 'must', allowed: 'may' };

function asWritten({ form }: NoteNode): Asked {
  if (form.kind === 'plain') return { kind: 'sounding', pitch: plainPitch(form.pitch) };
  if (form.kind === 'diamond') return { kind: 'diamond', touch: plainPitch(form.touch) };
  return { kind: 'artificial', stop: plainPitch(form.stop), touch: plainPitch(form.touch) };
}

function plainPitch({ letter, alter, octave }: PitchNode): Pitch {
  return { letter, alter, octave };
}

function silent({ form }: NoteNode, written: Asked): LineProblem {
  if (written.kind !== 'artificial') {
    const touched = written.kind === 'diamond' ? pitchName(written.touch) : '';
    const message = t(
      'There is no natural harmonic at this diamond: no string of this instrument has a node of partials 2 to 8 where {touched} would be stopped. Write the sounding pitch with a circle, or an artificial harmonic.',
      { touched },
    );
    return error('unknown-touch', form, message);
  }
  const apart = semitone(written.touch) - semitone(written.stop);
  const names = { touch: pitchName(written.touch), stop: pitchName(written.stop) };
  const why =
    apart > 0
      ? t('{touch} lies {apart} semitones above {stop}, and no harmonic speaks there', { ...names, apart })
      : t('the touched {touch} must lie above the stopped {stop}', names);
  const message = t(
    'This is not an artificial harmonic: {why}. Touch a minor third, third, fourth, fifth, sixth or octave above the stopped note.',
    { why },
  );
  return error('unknown-touch', form, message);
}

function mismatch(note: NoteNode, expected: Pitch, soundings: readonly Sounding[]): LineProblem {
  const at = note.expected ?? note;
  const message = t('As printed this sounds {soundings}, not {expected}. Correct the sounding pitch, or the printed notes.', {
    soundings: soundingNames(soundings),
    expected: pitchName(expected),
  });
  const right = [...new Set(soundings.map(({ pitch }) => pitchName(pitch)))].slice(0, 4);
  return error(
    'sounding-mismatch',
    at,
    message,
    right.map((name) => replacement(at, `= ${name}`)),
  );
}
