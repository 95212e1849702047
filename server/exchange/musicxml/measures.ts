import Fraction from 'fraction.js';
import type { Meter } from '../../music/meter';
import { keyOf, meterOf, type PartState, readAttributes } from './attributes';
import { type Directions, readDirection, readDynamics, readSound } from './direction';
import { attribute, child, children, type Element, numberOf, textOf } from './element';
import type { Losses } from './losses';
import { type ReadNote, readNote, spoken } from './note';
import { NOTE_VALUES } from './note-values';
import { oneLine } from './score';
import type { Chord, WrittenNote } from './written-note';

/** One measure of one part, every note at its place in time. */
export interface Measure {
  /** As printed. */
  readonly label: string;
  /** Not counted: an upbeat, or a bar cut in two by a repeat sign. */
  readonly implicit: boolean;
  /** How far its notes and rests reach, in whole notes. */
  readonly length: Fraction;
  readonly chords: readonly Chord[];
  readonly graces: readonly Grace[];
  readonly directions: readonly (Directions & { readonly onset: Fraction })[];
  readonly meter?: Meter | 'free';
  readonly key?: string;
  readonly repeatBefore: boolean;
  readonly repeatAfter: boolean;
  readonly doubleAfter: boolean;
}

/** A grace note, which takes no time of its own; it stands before the chord of its voice at `onset`, or at the end of the measure. */
export interface Grace {
  readonly chord: Chord;
  readonly onset: Fraction;
}

const ZERO = new Fraction(0);
/** What a measure may hold that a passage has no need of. */
const LAYOUT = new Set(['print', 'bookmark', 'link', 'grouping', 'listening']);

/** Reads the measures of one part in order. */
export function readMeasures(elements: readonly Element[], losses: Losses): readonly Measure[] {
  const state: PartState = { divisions: 1, transposition: { steps: 0, semitones: 0 } };
  return elements.map((element, index) =>
    readMeasure(element, oneLine(attribute(element, 'number') ?? String(index + 1)), state, losses),
  );
}

interface Pending {
  onset: Fraction;
  duration: Fraction;
  voice: string;
  grace: boolean;
  notes: WrittenNote[];
  read: ReadNote[];
}

function readMeasure(element: Element, label: string, state: PartState, losses: Losses): Measure {
  let at = ZERO;
  let end = ZERO;
  const pending: Pending[] = [];
  const directions: (Directions & { onset: Fraction })[] = [];
  const bars = { repeatBefore: false, repeatAfter: false, doubleAfter: false };
  let meter: Meter | 'free' | undefined;
  let key: string | undefined;
  const move = (by: Fraction) => {
    at = at.add(by);
    // Rounded durations can leave a voice a little before or after the start it should return to.
    if (at.compare(ZERO) < 0 || (by.compare(ZERO) < 0 && at.compare(new Fraction(1, 4 * state.divisions)) < 0)) at = ZERO;
    if (at.compare(end) > 0) end = at;
  };
  const say = (said: Directions, onset: Fraction) => {
    if (said.dynamics.length + said.instructions.length > 0 || said.tempo !== undefined || said.tuning !== undefined) {
      directions.push({ ...said, onset });
    }
  };
  for (const part of element.children) {
    switch (part.name) {
      case 'note': {
        const read = readNote(part, state.transposition, label, losses);
        const last = pending.at(-1);
        const grace = child(part, 'grace') !== undefined;
        if (child(part, 'chord') && last && last.grace === grace) {
          if (read.written) last.notes.push(read.written);
          last.read.push(read);
          break;
        }
        const duration = grace ? ZERO : durationOf(part, state.divisions);
        const alone = child(part, 'cue') !== undefined && !grace;
        if (alone) losses.leftOut(label, 'cue notes of another part; rests stand in their place');
        const voice = textOf(part, 'voice') ?? '1';
        pending.push({ onset: at, duration, voice, grace, notes: read.written && !alone ? [read.written] : [], read: [read] });
        for (const dynamics of read.dynamics) say({ instructions: [], dynamics: readDynamics(dynamics, label, losses) }, at);
        move(duration);
        break;
      }
      case 'backup':
        move(timeOf(part, state.divisions).neg());
        break;
      case 'forward':
        move(timeOf(part, state.divisions));
        break;
      case 'attributes':
        readAttributes(part, state, label, losses);
        if (at.equals(ZERO)) meter = meterOf(part, label, losses) ?? meter;
        else if (child(part, 'time')) losses.leftOut(label, 'a change of meter inside the bar');
        key = keyOf(part, label, losses) ?? key;
        break;
      case 'direction': {
        const shift = exact(textOf(part, 'offset'));
        say(readDirection(part, label, losses), shift ? later(at, shift.div(4 * state.divisions)) : at);
        break;
      }
      case 'sound': {
        const tempo = readSound(part, label, losses);
        if (tempo !== undefined) say({ instructions: [], dynamics: [], tempo }, at);
        break;
      }
      case 'barline':
        readBarline(part, bars, label, losses);
        break;
      case 'harmony':
        losses.leftOut(label, 'a chord symbol');
        break;
      default:
        if (!LAYOUT.has(part.name)) losses.leftOut(label, `the mark “${spoken(part.name)}”`);
    }
  }
  const chords: Chord[] = [];
  const graces: Grace[] = [];
  for (const { grace, read, ...rest } of pending) {
    const chord: Chord = { ...rest, measure: label, marks: joined(read) };
    if (grace) graces.push({ chord, onset: rest.onset });
    else if (rest.duration.compare(ZERO) > 0) chords.push(chord);
    else if (rest.notes.length > 0) losses.leftOut(label, 'a note without a duration');
  }
  const implicit = attribute(element, 'implicit') === 'yes';
  return {
    label,
    implicit,
    length: end,
    chords,
    graces,
    directions,
    ...bars,
    ...(meter && { meter }),
    ...(key !== undefined && { key }),
  };
}

function joined(read: readonly ReadNote[]): Chord['marks'] {
  const bow = read.find((r) => r.marks.bow)?.marks.bow;
  return {
    slurStarts: [...new Set(read.flatMap((r) => r.marks.slurStarts))],
    slurStops: [...new Set(read.flatMap((r) => r.marks.slurStops))],
    slide: read.some((r) => r.marks.slide),
    ...(bow && { bow }),
  };
}

function later(at: Fraction, by: Fraction): Fraction {
  const sum = at.add(by);
  return sum.compare(ZERO) < 0 ? ZERO : sum;
}

/** A decimal of the file as an exact fraction; undefined where it is none, or out of all proportion. */
function exact(text: string | undefined): Fraction | undefined {
  return text !== undefined && /^-?\d{1,9}(?:\.\d{1,6})?$/.test(text) ? new Fraction(text) : undefined;
}

function timeOf(element: Element, divisions: number): Fraction {
  return (exact(textOf(element, 'duration')) ?? ZERO).div(4 * divisions);
}

/** The note value as printed where it agrees with the duration to within its rounding, else the duration. */
function durationOf(note: Element, divisions: number): Fraction {
  const performed = timeOf(note, divisions);
  const value = NOTE_VALUES[textOf(note, 'type') ?? ''];
  if (!value) return performed;
  const dots = children(note, 'dot').length;
  const tuplet = child(note, 'time-modification');
  const normal = numberOf(tuplet, 'normal-notes') ?? 1;
  const actual = numberOf(tuplet, 'actual-notes') ?? 1;
  if (
    dots > 4 ||
    !Number.isInteger(normal) ||
    !Number.isInteger(actual) ||
    normal < 1 ||
    actual < 1 ||
    normal > 999 ||
    actual > 999
  )
    return performed;
  const printed = new Fraction(...value).mul(2 ** (dots + 1) - 1, 2 ** dots).mul(normal, actual);
  return printed
    .sub(performed)
    .abs()
    .compare(new Fraction(1, 4 * divisions)) < 0
    ? printed
    : performed;
}

function readBarline(
  barline: Element,
  bars: { repeatBefore: boolean; repeatAfter: boolean; doubleAfter: boolean },
  measure: string,
  losses: Losses,
): void {
  const place = attribute(barline, 'location') ?? 'right';
  const style = textOf(barline, 'bar-style');
  const repeat = child(barline, 'repeat');
  if (repeat) {
    if (attribute(repeat, 'direction') === 'forward') bars.repeatBefore = true;
    else bars.repeatAfter = true;
    const times = attribute(repeat, 'times');
    if (times !== undefined && times !== '2')
      losses.changed(measure, `a repeat ${oneLine(times)} times, written as a plain repeat`);
  } else if (place === 'right' && /^(?:light-light|light-heavy|heavy-light|heavy-heavy|heavy)$/.test(style ?? ''))
    bars.doubleAfter = true;
  for (const mark of barline.children) {
    if (mark.name === 'ending' && attribute(mark, 'type') === 'start') {
      losses.leftOut(
        measure,
        `the bracket of ending ${oneLine(attribute(mark, 'number') ?? '')}; its bars are there, in the order they are printed`,
      );
    } else if (!['bar-style', 'repeat', 'ending', 'footnote', 'level'].includes(mark.name)) {
      losses.leftOut(measure, `the mark “${spoken(mark.name)}” on a bar line`);
    }
  }
}
