import Fraction from 'fraction.js';
import { DYNAMICS } from '../../../grammar/tokens';
import type { Dynamic } from '../../../grammar/tree';
import { printDuration } from '../../music/duration';
import { parsePitch } from '../../music/pitch';
import { BOUNDS } from '../../passage/music-values';
import { attribute, child, children, type Element, textOf } from './element';
import type { Losses } from './losses';
import { spoken } from './note';
import { NOTE_VALUES } from './note-values';
import { oneLine } from './score';

/** What is printed over or under the staff, as a passage says it. */
export interface Directions {
  readonly instructions: readonly string[];
  readonly dynamics: readonly Dynamic[];
  /** The value of a `tempo:` line. */
  readonly tempo?: string;
  /** The value of a `tuning:` line, lowest string first. */
  readonly tuning?: string;
}

/** The level that a `<dynamics>` element asks for, the loudest and softest ones drawn in to `ff` and `pp`. */
export function readDynamics(dynamics: Element, measure: string, losses: Losses): readonly Dynamic[] {
  return dynamics.children.flatMap((mark) => {
    const level = DYNAMICS.find((name) => name === mark.name);
    if (level) return [level];
    if (/^(?:p{3,}|f{3,})$/.test(mark.name)) {
      const nearest: Dynamic = mark.name.startsWith('p') ? 'pp' : 'ff';
      losses.changed(measure, 'a dynamic beyond ppp or fff', `${mark.name} as ${nearest}`);
      return [nearest];
    }
    losses.leftOut(measure, 'a dynamic', mark.name === 'other-dynamics' ? `“${oneLine(mark.text)}”` : mark.name);
    return [];
  });
}

/** Reads a `<direction>`; whatever of it a passage can't say goes to `losses`. */
export function readDirection(direction: Element, measure: string, losses: Losses): Directions {
  const instructions: string[] = [];
  const dynamics: Dynamic[] = [];
  const words: string[] = [];
  let tempo: string | undefined;
  let tuning: string | undefined;
  for (const mark of children(direction, 'direction-type').flatMap((type) => type.children)) {
    switch (mark.name) {
      case 'words':
        words.push(mark.text);
        break;
      case 'rehearsal':
        instructions.push(`Rehearsal mark ${oneLine(mark.text)}`);
        break;
      case 'dynamics':
        dynamics.push(...readDynamics(mark, measure, losses));
        break;
      case 'metronome':
        tempo ??= metronome(mark, measure, losses);
        break;
      case 'scordatura':
        tuning = scordatura(mark);
        if (tuning === undefined) losses.leftOut(measure, 'a retuning that does not name all four strings');
        break;
      case 'octave-shift': // The pitches in the file are already the sounding ones.
      case 'footnote':
      case 'level':
        break;
      case 'wedge':
        if (attribute(mark, 'type') !== 'stop') losses.leftOut(measure, `a ${attribute(mark, 'type') ?? 'hairpin'} hairpin`);
        break;
      default:
        if (attribute(mark, 'type') !== 'stop') losses.leftOut(measure, `the mark “${spoken(mark.name)}”`);
    }
  }
  const text = oneLine(words.join(' '));
  if (text !== '') instructions.push(text);
  const sound = child(direction, 'sound');
  if (sound) tempo ??= readSound(sound, measure, losses);
  return { instructions, dynamics, ...(tempo !== undefined && { tempo }), ...(tuning !== undefined && { tuning }) };
}

/** The tempo that a `<sound>` element sets; its jumps are listed. */
export function readSound(sound: Element, measure: string, losses: Losses): string | undefined {
  for (const jump of ['dacapo', 'dalsegno', 'tocoda', 'fine', 'forward-repeat']) {
    if (attribute(sound, jump) !== undefined)
      losses.leftOut(measure, 'a jump; the bars are read in the order they are printed', spoken(jump));
  }
  const beats = attribute(sound, 'tempo');
  return beats === undefined ? undefined : tempoValue(new Fraction(1, 4), beats, measure, losses);
}

function metronome(mark: Element, measure: string, losses: Losses): string | undefined {
  const value = NOTE_VALUES[textOf(mark, 'beat-unit') ?? ''];
  const beats = textOf(mark, 'per-minute');
  if (!value || beats === undefined) {
    losses.leftOut(measure, 'a relation between two tempos');
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
    losses.leftOut(measure, 'a tempo that nobody plays', `“${oneLine(beats)}”`);
    return undefined;
  }
  if (!/^\s*\d+(?:\.\d+)?\s*$/.test(beats))
    losses.changed(measure, 'a tempo written as a plain number', `“${oneLine(beats)}” as ${bpm}`);
  return `${printDuration(beat)} = ${bpm}`;
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
