import { t } from '../../l10n/translate';
import type { Meter } from '../../music/meter';
import type { Clef } from '../../scene/staff/clef';
import type { Losses } from '../score/losses';
import { keyValue, meterFrom } from '../score/signatures';
import { attribute, child, children, type Element, numberOf, textOf } from './element';
import { clefNamed } from './marks';
import { spoken, type Transposition } from './note';

/** What a part's attributes say from here on. */
export interface PartState {
  /** In force, as a `key:` line writes it. */
  key?: string;
  divisions: number;
  transposition: Transposition;
  /** Numbers of the staves that hold another way of playing beside the part's own staff. */
  readonly ossia: Set<string>;
}

/** Takes over divisions, transposition and which staves are ossia; measure styles are listed. */
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
    else losses.notesLeftOut(measure, t('a transposition that can’t be read'));
  }
  for (const details of children(attributes, 'staff-details')) {
    const type = textOf(details, 'staff-type');
    const staff = attribute(details, 'number') ?? '1';
    if (type !== undefined && type !== 'ossia') state.ossia.delete(staff);
    if (type !== 'ossia') continue;
    // The first staff is the part itself, whatever it is called.
    if (staff === '1') losses.changed(measure, t('an ossia that is the only staff of its part, read as the part'));
    else state.ossia.add(staff);
  }
  for (const style of children(attributes, 'measure-style').flatMap((s) => s.children)) {
    if (style.name !== 'multiple-rest') losses.leftOut(measure, t('the mark “{name}”', { name: spoken(style.name) }));
  }
}

/** The meter that attributes set, `free` for music without one, undefined where they set none. */
export function meterOf(attributes: Element, measure: string, losses: Losses): Meter | 'free' | undefined {
  const time = child(attributes, 'time');
  if (!time) return undefined;
  if (child(time, 'senza-misura')) return 'free';
  const units = children(time, 'beat-type').map((u) => Number(u.text));
  const groups = children(time, 'beats').map((b) => b.text);
  const meter = meterFrom(
    groups.map((beats, i) => ({ beats, unit: units[i] ?? Number.NaN })),
    measure,
    losses,
  );
  if (meter !== 'free' && (groups.length > 1 || groups.some((g) => g.includes('+'))))
    losses.changed(
      measure,
      t('a grouped meter, written as one number'),
      t('{groups} as {count}/{unit}', { groups: groups.join('+'), count: meter.count, unit: meter.unit }),
    );
  return meter;
}

/** How many bars are printed as one rest from here on; undefined where that is not said, or of fewer than two. */
export function restsOf(attributes: Element): number | undefined {
  const rests = children(attributes, 'measure-style').map((style) => numberOf(style, 'multiple-rest') ?? 0);
  return rests.find((bars) => Number.isInteger(bars) && bars > 1);
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
  const church = mode === 'major' || mode === 'minor' || mode === 'none' ? undefined : mode;
  return keyValue(fifths, mode === 'minor' ? 'minor' : 'major', church, measure, losses);
}
