import Fraction from 'fraction.js';
import type { Meter } from '../../music/meter';
import { keyOf, meterOf, type PartState, readAttributes } from './attributes';
import { type Directions, readDirection, readDynamics, readSound } from './direction';
import { attribute, child, type Element, textOf } from './element';
import type { Losses } from './losses';
import { type ReadNote, readNote, spoken } from './note';
import { oneLine } from './score';
import type { ScoreMark } from './score-marks';
import { durationOf, exact, timeOf } from './time';
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

/** Reads the measures of one part in order; `marks` are what the score says of each of them in other parts. */
export function readMeasures(
  elements: readonly Element[],
  marks: readonly (readonly ScoreMark[])[],
  losses: Losses,
): readonly Measure[] {
  const state: PartState = { divisions: 1, transposition: { steps: 0, semitones: 0 } };
  return elements.map((element, index) =>
    readMeasure(element, marks[index] ?? [], oneLine(attribute(element, 'number') ?? String(index + 1)), state, losses),
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

function readMeasure(element: Element, marks: readonly ScoreMark[], label: string, state: PartState, losses: Losses): Measure {
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
  const takeMark = (mark: Element, onset: Fraction) => {
    if (mark.name === 'barline') readBarline(mark, bars, label, losses);
    else if (mark.name === 'direction') say(readDirection(mark, label, losses), onset);
    else {
      const tempo = readSound(mark, label, losses);
      if (tempo !== undefined) say({ instructions: [], dynamics: [], tempo }, onset);
    }
  };
  for (const mark of marks) takeMark(mark.element, mark.onset);
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
        else if (child(part, 'time')) losses.notesLeftOut(label, 'a change of meter inside the bar');
        key = keyOf(part, label, losses) ?? key;
        break;
      case 'direction': {
        const shift = exact(textOf(part, 'offset'));
        takeMark(part, shift ? later(at, shift.div(4 * state.divisions)) : at);
        break;
      }
      case 'sound':
      case 'barline':
        takeMark(part, at);
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
    else if (rest.notes.length > 0) losses.notesLeftOut(label, 'a note without a duration');
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
      losses.changed(measure, 'a repeat of more than two times, written as a plain one', `${oneLine(times)} times`);
  } else if (place === 'right' && /^(?:light-light|light-heavy|heavy-light|heavy-heavy|heavy)$/.test(style ?? ''))
    bars.doubleAfter = true;
  for (const mark of barline.children) {
    if (mark.name === 'ending' && attribute(mark, 'type') === 'start') {
      losses.leftOut(
        measure,
        'the bracket of an ending; its bars are there, in the order they are printed',
        oneLine(attribute(mark, 'number') ?? ''),
      );
    } else if (!['bar-style', 'repeat', 'ending', 'footnote', 'level'].includes(mark.name)) {
      losses.leftOut(measure, `the mark “${spoken(mark.name)}” on a bar line`);
    }
  }
}
