import Fraction from 'fraction.js';
import { DYNAMICS, type JumpWord, STRESSES } from '../../../grammar/marks';
import { t } from '../../l10n/translate';
import { BOUNDS } from '../../music/choice';
import { durationText } from '../../music/duration';
import { parsePitch } from '../../music/pitch';
import type { Losses } from '../score/losses';
import type { Directions } from '../score/measure';
import { directionOf, jumpOf } from '../score/printed-words';
import { oneLine } from '../score/score';
import { attribute, child, children, type Element, textOf } from './element';
import { spoken } from './note';
import { NOTE_VALUES } from './note-values';
import { JUMP_SOUNDS } from './signs';

const SIGNS: ReadonlySet<string> = new Set([...DYNAMICS, ...STRESSES]);

/** The signs of a `<dynamics>` element, those beyond `fff` and `ppp` drawn in. */
export function readDynamics(dynamics: Element, measure: string, losses: Losses): readonly string[] {
  return dynamics.children.flatMap((mark) => {
    if (SIGNS.has(mark.name)) return [mark.name];
    if (/^(?:p{4,}|f{4,})$/.test(mark.name)) {
      const nearest = mark.name.startsWith('p') ? 'ppp' : 'fff';
      losses.changed(measure, t('a dynamic beyond ppp or fff'), t('{name} as {nearest}', { name: mark.name, nearest }));
      return [nearest];
    }
    if (mark.name === 'sfpp') {
      losses.changed(measure, 'a dynamic', t('sfpp as sfp and pp'));
      return ['sfp', 'pp'];
    }
    losses.leftOut(measure, 'a dynamic', mark.name === 'other-dynamics' ? `“${oneLine(mark.text)}”` : mark.name);
    return [];
  });
}

/** Reads a `<direction>`; whatever of it a passage can't say goes to `losses`. */
export function readDirection(direction: Element, measure: string, losses: Losses): Directions {
  const instructions: string[] = [];
  const marks: string[] = [];
  const words: string[] = [];
  const texts: string[] = [];
  const jumps: JumpWord[] = [];
  let tempo: string | undefined;
  let tuning: string | undefined;
  for (const mark of children(direction, 'direction-type').flatMap((type) => type.children)) {
    switch (mark.name) {
      case 'words':
        texts.push(mark.text);
        break;
      case 'rehearsal':
        marks.push(oneLine(mark.text));
        break;
      case 'segno':
      case 'coda':
        jumps.push(mark.name);
        break;
      case 'dynamics':
        words.push(...readDynamics(mark, measure, losses));
        break;
      case 'metronome':
        tempo ??= metronome(mark, measure, losses);
        break;
      case 'scordatura':
        tuning = scordatura(mark);
        if (tuning === undefined) losses.leftOut(measure, t('a retuning that does not name all four strings'));
        break;
      case 'octave-shift': // The pitches in the file are already the sounding ones.
      case 'dashes': // They only say how long a text holds.
      case 'footnote':
      case 'level':
        break;
      case 'wedge': {
        const type = attribute(mark, 'type');
        if (type === 'crescendo' || type === 'diminuendo') words.push(type);
        else if (type === 'stop') words.push('end');
        break;
      }
      default:
        if (attribute(mark, 'type') !== 'stop') losses.leftOut(measure, t('the mark “{name}”', { name: spoken(mark.name) }));
    }
  }
  const text = oneLine(texts.join(' '));
  const way = directionOf(text);
  const printed = jumpOf(text);
  if (way) words.push(way);
  else if (printed) jumps.push(printed);
  else if (text !== '') instructions.push(text);
  const sound = child(direction, 'sound');
  if (sound) {
    tempo ??= readTempo(sound, measure, losses);
    if (jumps.length === 0) jumps.push(...soundJumps(sound));
  }
  return {
    instructions,
    words,
    ...(marks.length > 0 && { marks }),
    ...(jumps.length > 0 && { jumps }),
    ...(tempo !== undefined && { tempo }),
    ...(tuning !== undefined && { tuning }),
  };
}

/** The tempo and the jumps that a `<sound>` element by itself asks for. */
export function readSound(sound: Element, measure: string, losses: Losses): Directions {
  const tempo = readTempo(sound, measure, losses);
  const jumps = soundJumps(sound);
  return { instructions: [], words: [], ...(tempo !== undefined && { tempo }), ...(jumps.length > 0 && { jumps }) };
}

function soundJumps(sound: Element): readonly JumpWord[] {
  return [...JUMP_SOUNDS].flatMap(([name, jump]) => (attribute(sound, name) === undefined ? [] : [jump]));
}

function readTempo(sound: Element, measure: string, losses: Losses): string | undefined {
  const beats = attribute(sound, 'tempo');
  return beats === undefined ? undefined : tempoValue(new Fraction(1, 4), beats, measure, losses);
}

function metronome(mark: Element, measure: string, losses: Losses): string | undefined {
  const value = NOTE_VALUES[textOf(mark, 'beat-unit') ?? ''];
  const beats = textOf(mark, 'per-minute');
  if (!value || beats === undefined) {
    losses.leftOut(measure, t('a relation between two tempos'));
    return undefined;
  }
  const dots = children(mark, 'beat-unit-dot').length;
  return tempoValue(new Fraction(...value).mul(2 ** (dots + 1) - 1, 2 ** dots), beats, measure, losses);
}

function tempoValue(beat: Fraction, beats: string, measure: string, losses: Losses): string | undefined {
  const number = /\d+(?:\.\d+)?/.exec(beats)?.[0];
  const bpm = Math.round(Number(number) * 1000) / 1000;
  const { least, most } = BOUNDS.bpm;
  if (!(bpm >= least && bpm <= most)) {
    losses.leftOut(measure, t('a tempo too slow or too fast to play'), `“${oneLine(beats)}”`);
    return undefined;
  }
  if (!/^\s*\d+(?:\.\d+)?\s*$/.test(beats))
    losses.changed(measure, t('a tempo written as a plain number'), t('“{beats}” as {bpm}', { beats: oneLine(beats), bpm }));
  return `${durationText(beat)} = ${bpm}`;
}

/** String 1 is the highest; a passage names the lowest first. */
function scordatura(mark: Element): string | undefined {
  const accords = children(mark, 'accord').map((accord) => {
    const alter = Number(textOf(accord, 'tuning-alter') ?? 0);
    const accidental = { '-2': 'bb', '-1': 'b', '0': '', '1': '#', '2': '##' }[String(alter)];
    return {
      string: Number(attribute(accord, 'string')),
      pitch: `${textOf(accord, 'tuning-step')}${accidental}${textOf(accord, 'tuning-octave')}`,
    };
  });
  const sorted = accords.sort((a, b) => b.string - a.string).map((a) => a.pitch);
  return sorted.length === 4 && sorted.every((pitch) => parsePitch(pitch)) ? sorted.join(' ') : undefined;
}
