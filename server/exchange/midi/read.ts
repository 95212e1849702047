import Fraction from 'fraction.js';
import { t } from '../../l10n/translate';
import { BOUNDS, isMeter } from '../../music/choice';
import { KEY_NAMES } from '../../music/key-names';
import { pulseOf } from '../../music/meter';
import type { Losses } from '../score/losses';
import { type Measure, MOST_MEASURES } from '../score/measure';
import type { Score } from '../score/score';
import { type Chord, NO_MARKS, plainNote } from '../score/written-note';
import { Unreadable } from '../unreadable';
import { likelyKey, spelled } from './key';
import { type From, type Performance, type PerformedPart, performanceOf } from './performed';
import { quantise, type Struck } from './quantise';

/** True for the first bytes of a Standard MIDI File. */
export function isMidi(bytes: Uint8Array): boolean {
  return bytes[0] === 0x4d && bytes[1] === 0x54 && bytes[2] === 0x68 && bytes[3] === 0x64;
}

/**
 * A Standard MIDI File as a score. It says what was played and not what is written, so values of notes, spelling, and
 * often meter and key are likely ones: what was assumed is told.
 *
 * @throws Unreadable
 */
export function readMidi(source: Uint8Array): Score {
  const performance = performanceOf(source);
  const { parts, title } = performance;
  if (parts.length === 0)
    throw new Unreadable(t('The MIDI file plays no notes, or only percussion. Export the part that you need.'));
  return {
    credits: [],
    fields: new Map(),
    ...(title && { work: title }),
    parts: parts.map((part, index) => ({
      id: String(index + 1),
      name: part.name,
      ...(part.family && { family: part.family }),
      measures: (losses) => measuresOf(part, performance, losses),
    })),
  };
}

/** A tempo is written anew where it differs from the last by more than this share: what is played is never quite even. */
const SAME_TEMPO = 0.04;

function measuresOf(part: PerformedPart, performance: Performance, losses: Losses): readonly Measure[] {
  const { struck, moved, furthest, closed } = quantise(part.notes);
  tellTimes({ moved, furthest, closed, of: part.notes.length }, losses);
  if (part.bent) losses.notesChanged('', t('pitches bent by more than a quarter tone, written as their keys'));
  losses.leftOut('', t('how loud each note is played, as no dynamic is written'));
  const bars = barsOf(struck, performance, losses);
  const keys = performance.keys.length > 0 ? performance.keys : assumedKey(part, losses);
  const inBar = byBar(struck, bars);
  const ways = waysByBar(struck, bars);
  let tempo: number | undefined;
  let uneven = 0;
  const measures = bars.map(({ from, to, meter }, index): Measure => {
    const label = String(index + 1);
    const key = holding(keys, from) ?? { fifths: 0, minor: false };
    const mean = meanTempo(performance.tempos, from.valueOf(), to.valueOf());
    if (performance.tempos.some(({ at }) => at > from.valueOf() + 0.01 && at < to.valueOf() - 0.01)) uneven++;
    const news = mean !== undefined && (tempo === undefined || Math.abs(mean / tempo - 1) > SAME_TEMPO);
    if (news) tempo = mean;
    return {
      label,
      implicit: to.sub(from).compare(new Fraction(4 * meter.count, meter.unit)) < 0,
      length: to.sub(from).div(4),
      chords: (inBar[index] as readonly Struck[]).flatMap((each) => chordIn(each, from, to, label, key.fifths)),
      graces: [],
      directions: [
        ...(news ? [{ onset: new Fraction(0), instructions: [], words: [], tempo: tempoText(mean, meter) }] : []),
        ...(ways[index] as readonly Way[]).map(({ at, word }) => ({
          onset: at.sub(from).div(4),
          instructions: [],
          words: [word],
        })),
      ],
      meter,
      key: `${KEY_NAMES[key.minor ? 'minor' : 'major'][key.fifths + 7]} ${key.minor ? 'minor' : 'major'}`,
      repeatBefore: false,
      repeatAfter: false,
      doubleAfter: false,
    };
  });
  if (uneven > 0)
    losses.changed('', t('tempos that change inside a bar, written as the mean of the bar'), t('{uneven} bars', { uneven }));
  if (performance.tempos.length === 0)
    losses.assumed('', t('the tempo'), t('1/4 = 120, as the standard has it for files without one'));
  return measures;
}

interface BarTime {
  readonly from: Fraction;
  readonly to: Fraction;
  readonly meter: { readonly count: number; readonly unit: number };
}

/** Bars up to the last note. A meter that changes inside a bar ends it there, as an upbeat in a bar of its own does. */
function barsOf(struck: readonly Struck[], { meters }: Performance, losses: Losses): readonly BarTime[] {
  if (meters.length === 0) losses.assumed('', t('the meter'), t('4/4, as the file names none'));
  const end = struck.reduce((last, { to }) => (to.compare(last) > 0 ? to : last), new Fraction(0));
  const changes = meters.map(({ at, value }) => ({ at: new Fraction(Math.round(at * 48), 48), value }));
  const bars: BarTime[] = [];
  let from = new Fraction(0);
  while (from.compare(end) < 0) {
    if (bars.length >= MOST_MEASURES)
      throw new Unreadable(
        t('The file is longer than {most} bars, longer than any piece. Export only what you need.', { most: MOST_MEASURES }),
      );
    const meter = usable(holding(changes, from)) ?? { count: 4, unit: 4 };
    const full = from.add(new Fraction(4 * meter.count, meter.unit));
    const change = changes.find(({ at }) => at.compare(from) > 0 && at.compare(full) < 0);
    const to = change ? change.at : full;
    bars.push({ from, to, meter });
    from = to;
  }
  return bars;
}

/** What sounds in each bar. What is struck comes in order, and of what is held on from bar to bar there is never much. */
function byBar(struck: readonly Struck[], bars: readonly BarTime[]): readonly (readonly Struck[])[] {
  let next = 0;
  let held: readonly Struck[] = [];
  return bars.map(({ from, to }) => {
    const sounding = held.filter((each) => each.to.compare(from) > 0);
    for (; next < struck.length && (struck[next] as Struck).from.compare(to) < 0; next++) sounding.push(struck[next] as Struck);
    held = sounding;
    return sounding;
  });
}

/** From where on notes are plucked, or bowed again. */
interface Way {
  readonly at: Fraction;
  readonly word: 'pizz' | 'arco';
}

function waysByBar(struck: readonly Struck[], bars: readonly BarTime[]): readonly (readonly Way[])[] {
  let plucks = false;
  let next = 0;
  return bars.map(({ to }) => {
    const ways: Way[] = [];
    for (; next < struck.length && (struck[next] as Struck).from.compare(to) < 0; next++) {
      const { from, plucked } = struck[next] as Struck;
      if (plucked !== plucks) ways.push({ at: from, word: plucked ? 'pizz' : 'arco' });
      plucks = plucked;
    }
    return ways;
  });
}

function usable(meter: BarTime['meter'] | undefined): BarTime['meter'] | undefined {
  return meter && isMeter(meter) ? meter : undefined;
}

/** What a chord sounds inside a bar, tied into the next one where it goes on. */
function chordIn({ keys, from, to }: Struck, start: Fraction, end: Fraction, measure: string, fifths: number): readonly Chord[] {
  const begins = from.compare(start) > 0 ? from : start;
  const ends = to.compare(end) < 0 ? to : end;
  if (begins.compare(ends) >= 0) return [];
  const tied = to.compare(end) > 0;
  const notes = keys.map((key) => plainNote(spelled(key, fifths), tied));
  return [
    {
      measure,
      voice: '1',
      onset: begins.sub(start).div(4),
      duration: ends.sub(begins).div(4),
      notes,
      marks: NO_MARKS,
    },
  ];
}

function holding<T, N extends number | Fraction>(list: readonly { at: N; value: T }[], from: Fraction): T | undefined {
  const at = from.valueOf() + 0.02;
  return list.findLast((each) => each.at.valueOf() <= at)?.value ?? list[0]?.value;
}

/** Quarters a minute over a stretch; undefined where the file names no tempo. */
function meanTempo(tempos: readonly From<number>[], from: number, to: number): number | undefined {
  if (tempos.length === 0) return undefined;
  let minutes = 0;
  for (const [i, { at, value }] of tempos.entries()) {
    const begins = Math.max(from, i === 0 ? 0 : at);
    const ends = Math.min(to, tempos[i + 1]?.at ?? to);
    if (ends > begins) minutes += (ends - begins) / value;
  }
  return minutes > 0 ? (to - from) / minutes : undefined;
}

/** In beats of the meter, within what a passage can have. */
function tempoText(quarters: number, meter: BarTime['meter']): string {
  const beat = pulseOf(meter);
  const bpm = quarters / (4 * beat.valueOf());
  const { least, most } = BOUNDS.bpm;
  return `${beat.toFraction()} = ${Math.min(most, Math.max(least, Math.round(bpm)))}`;
}

function assumedKey({ notes }: PerformedPart, losses: Losses): Performance['keys'] {
  const fifths = likelyKey(notes.map(({ key }) => key));
  losses.assumed('', t('the key, for the spelling of its notes'), `${KEY_NAMES.major[fifths + 7]} major`);
  return [{ at: 0, value: { fifths, minor: false } }];
}

function tellTimes(
  { moved, furthest, closed, of }: { moved: number; furthest: number; closed: number; of: number },
  losses: Losses,
): void {
  if (moved > 0)
    losses.assumed(
      '',
      t('the values of notes, each moved to the nearest likely place'),
      t('{moved} of {of} notes, by {furthest} of a quarter at most', { moved, of, furthest: furthest.toFixed(2) }),
    );
  if (closed > 0) losses.assumed('', t('notes that end a little early, written up to the next one'), `${closed} of ${of}`);
}
