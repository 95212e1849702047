import Fraction from 'fraction.js';
import { DYNAMICS } from '../../../grammar/marks';
import type { Family } from '../../instrument/instrument';
import { t } from '../../l10n/translate';
import { isMeter } from '../../music/choice';
import type { Meter } from '../../music/meter';
import type { Pitch } from '../../music/pitch';
import type { Clef } from '../../scene/staff/clef';
import type { Losses } from './losses';
import type { Grace, Measure } from './measure';
import { writtenAsOne } from './rests-together';
import { graceSlice, type Slice, slicesOf, tiesJoined } from './slices';

/** A bar of the passage with the lines that come before it. */
export interface TextBar {
  /** `key: value` lines, without the ones that change nothing. */
  readonly settings: readonly string[];
  readonly instructions: readonly string[];
  /** So many bars in one, as one rest. */
  readonly rests?: number;
  readonly slices: readonly Slice[];
  /** Dynamics and the like by the slice of this bar that they come before. */
  readonly words: ReadonlyMap<number, readonly string[]>;
  /** Words at its start: the ending and the signs. */
  readonly opens: readonly string[];
  /** Words before its bar line: the end of a hairpin, jumps. */
  readonly ends: readonly string[];
  /** What closes it: `|`, `||`, `|:`, `:|`, or `:| |:`. */
  readonly close: string;
}

export interface TextBars {
  readonly opensRepeat: boolean;
  readonly bars: readonly TextBar[];
}

const ZERO = new Fraction(0);

/** Turns measures into bars of a passage: voices into double stops, odd bar lengths into meters of their own. */
export function barsOf(measures: readonly Measure[], openStrings: readonly Pitch[], family: Family, losses: Losses): TextBars {
  const lengths = lengthsOf(measures, losses);
  const sliced = measures.map((measure, index) => {
    const { length } = lengths[index] as BarLength;
    if (length.equals(ZERO)) return [];
    const bar = { index, label: measure.label, length };
    const slices = slicesOf(measure.chords, bar, openStrings, losses);
    return withGraces(slices, measure, (grace) => graceSlice(grace.chord, grace.chord.grace ?? ZERO, bar, openStrings, losses));
  });
  const joined = tiesJoined(sliced.flat(), losses);
  let at = 0;
  let tempo: string | undefined;
  let key: string | undefined;
  // A violinist reads no other clef, so it need not be said.
  let clef: Clef | undefined = family === 'violin' ? 'treble' : undefined;
  let hairpin: string | undefined;
  let waiting: { tempo?: string; words: string[] } = { words: [] };
  const bars = measures.map((measure, index): TextBar => {
    const count = (sliced[index] as readonly Slice[]).length;
    const slices = joined.slice(at, at + count);
    at += count;
    const instructions: string[] = [];
    const marks: string[] = [];
    const words = new Map<number, string[]>();
    if (waiting.words.length > 0) words.set(0, waiting.words);
    let wanted = waiting.tempo;
    waiting = { words: [] };
    let endsHairpin = false;
    for (const said of [...measure.directions].sort((a, b) => a.onset.compare(b.onset))) {
      const atStart = said.onset.equals(ZERO);
      if (atStart) instructions.push(...said.instructions.filter((text) => !instructions.includes(text)));
      marks.push(...(said.marks ?? []));
      if (said.tempo !== undefined) {
        if (said.onset.equals(ZERO)) wanted = said.tempo;
        else {
          waiting.tempo = said.tempo;
          if (said.tempo !== tempo)
            losses.changed(measure.label, t('a change of tempo inside the bar, moved to the next bar line'), said.tempo);
        }
      }
      for (const word of [...(atStart ? [] : said.instructions.map(inQuotes)), ...said.words]) {
        const { at, exact } = placeIn(slices, said.onset, measure.length, word === 'end');
        if (!exact)
          losses.changed(measure.label, t('a dynamic, hairpin or text inside a note, moved to its beginning or end'), word);
        if (at < slices.length) words.set(at, [...(words.get(at) ?? []), word]);
        else if (word === 'end') endsHairpin = true;
        else waiting.words.push(word);
      }
    }
    for (const [at, said] of [...words].sort(([a], [b]) => a - b)) {
      const settled = hairpins(said, hairpin);
      for (const word of settled.lost) losses.leftOut(measure.label, t('a hairpin within one note'), word);
      hairpin = settled.open;
      words.set(at, [...settled.words]);
    }
    const hairpinEnds = endsHairpin && hairpin !== undefined ? [`end ${hairpin}`] : [];
    if (endsHairpin) hairpin = undefined;
    const settings = [...marks.map((mark) => `mark: ${mark}`), ...(lengths[index]?.line ?? [])];
    if (measure.key !== undefined && measure.key !== key) {
      if (key !== undefined || index > 0) settings.push(`key: ${measure.key}`);
      key = measure.key;
    }
    if (wanted !== undefined && wanted !== tempo) {
      settings.push(`tempo: ${wanted}`);
      tempo = wanted;
    }
    const wantedClef = measure.clef ?? measures[index - 1]?.clefAfter;
    if (measures[index - 1]?.clefAfter && wantedClef !== clef)
      losses.changed(measures[index - 1]?.label ?? '', t('a change of clef inside the bar, moved to the bar line'));
    if (wantedClef && wantedClef !== clef) {
      settings.push(`clef: ${wantedClef}`);
      clef = wantedClef;
    }
    const jumps = measure.jumps ?? [];
    const signs: readonly string[] = jumps.filter((jump) => jump === 'segno' || jump === 'coda');
    return {
      settings,
      instructions,
      slices,
      words,
      opens: [...(measure.ending === undefined ? [] : [`ending ${measure.ending}`]), ...signs],
      ends: [...hairpinEnds, ...jumps.filter((jump) => !signs.includes(jump))],
      close: closeOf(measure, measures[index + 1]),
    };
  });
  return { opensRepeat: measures[0]?.repeatBefore ?? false, bars: writtenAsOne(bars, measures, losses) };
}

/** Grace notes in front of the note that they stand before, or at the end of the bar. */
function withGraces(slices: readonly Slice[], { graces }: Measure, sliceOf: (grace: Grace) => Slice): readonly Slice[] {
  const sounding = graces.filter(({ chord }) => chord.notes.length > 0);
  if (sounding.length === 0) return slices;
  const before = new Map<number, Slice[]>();
  for (const grace of sounding) {
    const found = slices.findIndex((slice) => slice.onset.compare(grace.onset) >= 0);
    const at = found < 0 ? slices.length : found;
    before.set(at, [...(before.get(at) ?? []), sliceOf(grace)]);
  }
  return [...slices.flatMap((slice, i) => [...(before.get(i) ?? []), slice]), ...(before.get(slices.length) ?? [])];
}

function closeOf(measure: Measure, next: Measure | undefined): string {
  if (measure.repeatAfter) return next?.repeatBefore ? ':| |:' : ':|';
  if (next?.repeatBefore) return '|:';
  return measure.doubleAfter || measure.endingAfter ? '||' : '|';
}

/**
 * The slice that a word stands before, or one past the last at the bar line. Inside a slice that is the nearer of its ends; a
 * hairpin's end waits for the later one, lest it come before its beginning.
 */
function placeIn(
  slices: readonly Slice[],
  onset: Fraction,
  length: Fraction,
  ends: boolean,
): { readonly at: number; readonly exact: boolean } {
  const found = slices.findIndex((slice) => slice.onset.compare(onset) >= 0);
  const at = found < 0 ? slices.length : found;
  const next = slices[at]?.onset ?? length;
  const before = slices[at - 1]?.onset;
  if (next.compare(onset) <= 0 || !before) return { at, exact: true };
  const nearer = !ends && onset.sub(before).compare(next.sub(onset)) < 0;
  return { at: nearer ? at - 1 : at, exact: false };
}

/** The words at one place in their order: the end of a hairpin is only said if no dynamic ends it anyway, one that ends where it began is lost. */
function hairpins(
  words: readonly string[],
  before: string | undefined,
): { readonly words: readonly string[]; readonly open: string | undefined; readonly lost: readonly string[] } {
  const dynamic = words.some((word) => (DYNAMICS as readonly string[]).includes(word));
  let open = dynamic ? undefined : before;
  let begun: string | undefined;
  const lost: string[] = [];
  const ends: string[] = [];
  for (const word of words) {
    if (word === 'crescendo' || word === 'diminuendo') begun = word;
    else if (word === 'end' && begun) {
      lost.push(begun);
      begun = undefined;
    } else if (word === 'end' && open) {
      ends.push(`end ${open}`);
      open = undefined;
    }
  }
  const others = words.filter((word) => word !== 'end' && word !== 'crescendo' && word !== 'diminuendo');
  return { words: begun ? [...others, begun] : [...ends, ...others], open: begun ?? open, lost };
}

/** A text as it stands between notes. */
export function inQuotes(text: string): string {
  return `"${text.replace(/["“”]/g, '’')}"`;
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
      losses.notesChanged(measure.label, t('a bar shorter than its meter, filled up with rests'));
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
        losses.changed(
          measure.label,
          t('a bar whose length fits no meter'),
          t('{length} of a whole note', { length: length.toFraction() }),
        );
      else if (length.compare(ZERO) > 0)
        losses.changed(
          measure.label,
          t('a bar longer or shorter than its meter, given a meter of its own'),
          t('{own} within {meter}', { own, meter: meter ?? t('free meter') }),
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
  return isMeter({ count, unit: common }) ? `${count}/${common}` : undefined;
}
