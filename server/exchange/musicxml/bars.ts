import Fraction from 'fraction.js';
import type { Dynamic } from '../../../grammar/tree';
import type { Meter } from '../../music/meter';
import type { Pitch } from '../../music/pitch';
import { withGraces } from './graces';
import type { Losses } from './losses';
import type { Measure } from './measures';
import { type Slice, slicesOf, tiesJoined } from './slices';

/** A bar of the passage with the lines that come before it. */
export interface TextBar {
  /** `key: value` lines, without the ones that change nothing. */
  readonly settings: readonly string[];
  readonly instructions: readonly string[];
  readonly slices: readonly Slice[];
  /** Dynamics by the slice of this bar that they come before. */
  readonly dynamics: ReadonlyMap<number, readonly Dynamic[]>;
  /** What closes it: `|`, `||`, `|:`, `:|`, or `:| |:`. */
  readonly close: string;
}

export interface TextBars {
  readonly opensRepeat: boolean;
  readonly bars: readonly TextBar[];
}

const ZERO = new Fraction(0);

/** Turns measures into bars of a passage: voices into double stops, odd bar lengths into meters of their own. */
export function barsOf(measures: readonly Measure[], openStrings: readonly Pitch[], losses: Losses): TextBars {
  const lengths = lengthsOf(measures, losses);
  const sliced = measures.map((measure, index) => {
    const { length } = lengths[index] as BarLength;
    return length.equals(ZERO)
      ? []
      : slicesOf(withGraces(measure, losses), { index, label: measure.label, length }, openStrings, losses);
  });
  const joined = tiesJoined(sliced.flat(), losses);
  let at = 0;
  let tempo: string | undefined;
  let waiting: { tempo?: string; dynamics: Dynamic[] } = { dynamics: [] };
  const bars = measures.map((measure, index): TextBar => {
    const count = (sliced[index] as readonly Slice[]).length;
    const slices = joined.slice(at, at + count);
    at += count;
    const instructions: string[] = [];
    const dynamics = new Map<number, Dynamic[]>();
    if (waiting.dynamics.length > 0) dynamics.set(0, waiting.dynamics);
    let wanted = waiting.tempo;
    waiting = { dynamics: [] };
    let slice = 0;
    for (const said of [...measure.directions].sort((a, b) => a.onset.compare(b.onset))) {
      instructions.push(...said.instructions.filter((text) => !instructions.includes(text)));
      if (said.tempo !== undefined) {
        if (said.onset.equals(ZERO)) wanted = said.tempo;
        else {
          waiting.tempo = said.tempo;
          if (said.tempo !== tempo)
            losses.changed(measure.label, 'a change of tempo inside the bar, moved to the next bar line', said.tempo);
        }
      }
      if (said.dynamics.length === 0) continue;
      while (slices[slice] && (slices[slice] as Slice).onset.compare(said.onset) < 0) slice++;
      const before = slice < slices.length ? (dynamics.get(slice) ?? []) : waiting.dynamics;
      before.push(...said.dynamics);
      if (slice < slices.length) dynamics.set(slice, before);
    }
    const settings = [...(lengths[index]?.line ?? [])];
    if (wanted !== undefined && wanted !== tempo) {
      settings.push(`tempo: ${wanted}`);
      tempo = wanted;
    }
    return { settings, instructions, slices, dynamics, close: closeOf(measure, measures[index + 1]) };
  });
  return { opensRepeat: measures[0]?.repeatBefore ?? false, bars };
}

function closeOf(measure: Measure, next: Measure | undefined): string {
  if (measure.repeatAfter) return next?.repeatBefore ? ':| |:' : ':|';
  if (next?.repeatBefore) return '|:';
  return measure.doubleAfter ? '||' : '|';
}

interface BarLength {
  readonly length: Fraction;
  /** The `meter:` line before it, if it needs one. */
  readonly line: readonly string[];
}

function lengthsOf(measures: readonly Measure[], losses: Losses): readonly BarLength[] {
  let nominal: Meter | 'free' = 'free';
  let written: string | undefined;
  let upbeat: Fraction | undefined;
  return measures.map((measure, index) => {
    nominal = measure.meter ?? nominal;
    const last = index === measures.length - 1;
    const full: Fraction | undefined = nominal === 'free' ? undefined : new Fraction(nominal.count, nominal.unit);
    let { length } = measure;
    if (full && length.equals(ZERO)) length = full;
    // A repeat sign may stand inside a bar: its two parts are measures of their own.
    const cut = measure.implicit || measure.repeatAfter || measures[index + 1]?.implicit === true;
    if (full && length.compare(full) < 0 && index > 0 && !last && !cut) {
      losses.notesChanged(measure.label, 'a bar shorter than its meter, filled up with rests');
      length = full;
    }
    if (index === 0 && full && length.compare(full) < 0) upbeat = length;
    // A bar before a double bar or repeat may give back what the upbeat took.
    const ends = measure.repeatAfter || (measure.doubleAfter && !measures[index + 1]?.repeatBefore);
    const completes = index > 0 && ends && upbeat !== undefined && full !== undefined && upbeat.add(length).equals(full);
    const whole = !full || length.equals(full) || completes || (index === 0 && upbeat !== undefined);
    let meter = nominal === 'free' ? undefined : `${nominal.count}/${nominal.unit}`;
    if (!whole || (!full && written !== undefined)) {
      const own = meterFor(length, nominal === 'free' ? 4 : nominal.unit);
      if (own === undefined)
        losses.changed(measure.label, 'a bar that no meter is as long as', `${length.toFraction()} of a whole note`);
      else if (length.compare(ZERO) > 0)
        losses.changed(
          measure.label,
          'a bar longer or shorter than its meter, given a meter of its own',
          `${own} within ${meter ?? 'free meter'}`,
        );
      meter = own ?? meter;
    }
    const line = meter !== undefined && meter !== written && length.compare(ZERO) > 0 ? [`meter: ${meter}`] : [];
    if (line.length > 0) written = meter;
    return { length, line };
  });
}

function meterFor(length: Fraction, unit: number): string | undefined {
  const denominator = Number(length.d);
  const common = Math.max(unit, denominator);
  const count = Number(length.n) * (common / denominator);
  return Number.isInteger(count) && count >= 1 && count <= 64 && [1, 2, 4, 8, 16, 32, 64].includes(common)
    ? `${count}/${common}`
    : undefined;
}
