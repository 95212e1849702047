import { KEY_NAMES } from '../../music/key-names';
import type { Meter } from '../../music/meter';
import { BOUNDS } from '../../passage/music-values';
import type { Clef } from '../../scene/staff/clef';
import type { Losses } from '../score/losses';
import { oneLine } from '../score/score';
import { child, children, type Element, numberOf, textOf } from './element';
import { clefNamed } from './marks';
import { spoken, type Transposition } from './note';

/** What a part's attributes say from here on. */
export interface PartState {
  divisions: number;
  transposition: Transposition;
}

/** Takes over divisions and transposition; measure styles are listed. */
export function readAttributes(attributes: Element, state: PartState, measure: string, losses: Losses): void {
  const divisions = numberOf(attributes, 'divisions');
  if (divisions !== undefined && divisions >= 1 && divisions <= 1e6) state.divisions = Math.round(divisions);
  const transpose = child(attributes, 'transpose');
  if (transpose) {
    const octaves = numberOf(transpose, 'octave-change') ?? 0;
    const chromatic = numberOf(transpose, 'chromatic') ?? 0;
    const steps = (numberOf(transpose, 'diatonic') ?? Math.round((chromatic * 7) / 12)) + 7 * octaves;
    const semitones = chromatic + 12 * octaves;
    if (Number.isInteger(steps) && Number.isInteger(semitones) && Math.abs(semitones) <= 48)
      state.transposition = { steps, semitones };
    else losses.notesLeftOut(measure, 'a transposition that can’t be read');
  }
  for (const style of children(attributes, 'measure-style').flatMap((s) => s.children)) {
    if (style.name !== 'multiple-rest') losses.leftOut(measure, `the mark “${spoken(style.name)}”`);
  }
}

/** The meter that attributes set, `free` for music without one, undefined where they set none. */
export function meterOf(attributes: Element, measure: string, losses: Losses): Meter | 'free' | undefined {
  const time = child(attributes, 'time');
  if (!time) return undefined;
  if (child(time, 'senza-misura')) return 'free';
  const units = children(time, 'beat-type').map((u) => Number(u.text));
  const groups = children(time, 'beats').map((b) => b.text);
  const unit = Math.max(...units);
  const count = groups.reduce(
    (sum, group, i) => sum + group.split('+').reduce((s, n) => s + Number(n), 0) * (unit / (units[i] ?? Number.NaN)),
    0,
  );
  if (!Number.isInteger(count) || count < 1 || count > BOUNDS.meterCount.most || ![1, 2, 4, 8, 16, 32, 64].includes(unit)) {
    losses.leftOut(measure, 'a meter that can’t be read');
    return 'free';
  }
  if (groups.length > 1 || groups.some((g) => g.includes('+')))
    losses.changed(measure, 'a grouped meter, written as one number', `${groups.join('+')} as ${count}/${unit}`);
  return { count, unit };
}

/** The value of a `clef:` line; undefined where none is set, or one that no string player reads. */
export function clefOf(attributes: Element): Clef | undefined {
  const clef = child(attributes, 'clef');
  return clef && clefNamed(textOf(clef, 'sign') ?? '', numberOf(clef, 'line') ?? 0);
}

/** The value of a `key:` line. */
export function keyOf(attributes: Element, measure: string, losses: Losses): string | undefined {
  const key = child(attributes, 'key');
  if (!key) return undefined;
  const mode = textOf(key, 'mode') ?? 'major';
  const fifths = numberOf(key, 'fifths');
  const name = fifths === undefined ? undefined : KEY_NAMES[mode === 'minor' ? 'minor' : 'major'][fifths + 7];
  if (name === undefined) {
    losses.leftOut(measure, 'a key signature that is no major or minor key');
    return undefined;
  }
  if (mode !== 'major' && mode !== 'minor' && mode !== 'none')
    losses.changed(measure, 'a church mode, written as the major key of its signature', `${oneLine(mode)} as ${name} major`);
  return `${name} ${mode === 'minor' ? 'minor' : 'major'}`;
}
