import Fraction from 'fraction.js';
import type { JumpWord } from '../../../grammar/marks';
import type { Meter } from '../../music/meter';
import type { Clef } from '../../scene/staff/clef';
import type { Losses } from '../score/losses';
import type { Directions, Grace, Measure } from '../score/measure';
import { oneLine } from '../score/score';
import type { Chord, WrittenNote } from '../score/written-note';
import { clefOf, keyOf, meterOf, type PartState, readAttributes } from './attributes';
import { breakingSaid } from './brackets';
import { readDirection, readDynamics, readSound } from './direction';
import { attribute, child, type Element, textOf } from './element';
import { type ReadNote, readNoteElement, spoken } from './note';
import type { ScoreMark } from './score-marks';
import { durationOf, exact, printedValue, timeOf } from './time';

interface ReadBars {
  repeatBefore: boolean;
  repeatAfter: boolean;
  doubleAfter: boolean;
  ending?: string;
  endingAfter?: true;
}

const ZERO = new Fraction(0);
const EIGHTH = new Fraction(1, 8);
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
  value?: Fraction;
  notes: WrittenNote[];
  read: ReadNote[];
}

function readMeasure(element: Element, marks: readonly ScoreMark[], label: string, state: PartState, losses: Losses): Measure {
  let at = ZERO;
  let end = ZERO;
  const pending: Pending[] = [];
  const directions: (Directions & { onset: Fraction })[] = [];
  const jumps: JumpWord[] = [];
  const bars: ReadBars = { repeatBefore: false, repeatAfter: false, doubleAfter: false };
  let meter: Meter | 'free' | undefined;
  let key: string | undefined;
  let clef: Clef | undefined;
  let clefAfter: Clef | undefined;
  const move = (by: Fraction) => {
    at = at.add(by);
    // Rounded durations can leave a voice a little before or after the start it should return to.
    if (at.compare(ZERO) < 0 || (by.compare(ZERO) < 0 && at.compare(new Fraction(1, 4 * state.divisions)) < 0)) at = ZERO;
    if (at.compare(end) > 0) end = at;
  };
  const say = (said: Directions, onset: Fraction) => {
    if (said.jumps) jumps.push(...said.jumps.filter((jump) => !jumps.includes(jump)));
    const { words, instructions, marks, tempo, tuning } = said;
    if (words.length + instructions.length > 0 || marks || tempo !== undefined || tuning !== undefined)
      directions.push({ ...said, onset });
  };
  const takeMark = (mark: Element, onset: Fraction) => {
    if (mark.name === 'barline') readBarline(mark, bars, label, losses);
    else if (mark.name === 'direction') say(readDirection(mark, label, losses), onset);
    else say(readSound(mark, label, losses), onset);
  };
  for (const mark of marks) takeMark(mark.element, mark.onset);
  for (const part of element.children) {
    switch (part.name) {
      case 'note': {
        const read = readNoteElement(part, state.transposition, label, losses);
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
        const value = grace ? (printedValue(part) ?? EIGHTH) : undefined;
        pending.push({
          onset: at,
          duration,
          voice,
          grace,
          ...(value && { value }),
          notes: read.written && !alone ? [read.written] : [],
          read: [read],
        });
        for (const dynamics of read.dynamics) say({ instructions: [], words: readDynamics(dynamics, label, losses) }, at);
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
        if (at.equals(ZERO)) clef = clefOf(part) ?? clef;
        else clefAfter = clefOf(part) ?? clefAfter;
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
  for (const { grace, read, value, ...rest } of pending) {
    const chord: Chord = {
      ...rest,
      notes: withBreaking(rest.notes, read, label, losses),
      measure: label,
      marks: joined(read),
      ...(value && { grace: value }),
    };
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
    ...(jumps.length > 0 && { jumps }),
    ...(meter && { meter }),
    ...(key !== undefined && { key }),
    ...(clef && { clef }),
    ...(clefAfter && { clefAfter }),
  };
}

/** The notes of a chord, the highest with the hint that the brackets before them say. */
function withBreaking(
  notes: readonly WrittenNote[],
  read: readonly ReadNote[],
  measure: string,
  losses: Losses,
): readonly WrittenNote[] {
  if (!read.some(({ brackets }) => brackets.length > 0)) return notes;
  const sounding = read.filter(({ written }) => written && notes.includes(written));
  const heads = sounding.filter(({ written }) => !written?.aside && !written?.diamond);
  const breaking = breakingSaid(heads.map(({ brackets }) => brackets));
  if (!breaking) {
    losses.leftOut(measure, 'a bracket about notes of a chord');
    return notes;
  }
  const last = heads.at(-1)?.written;
  return notes.map((note) => (note === last ? { ...note, hints: [...note.hints, breaking] } : note));
}

function joined(read: readonly ReadNote[]): Chord['marks'] {
  const bow = read.find((r) => r.marks.bow)?.marks.bow;
  const strokes = read.find((r) => r.marks.strokes)?.marks.strokes;
  return {
    slurStarts: [...new Set(read.flatMap((r) => r.marks.slurStarts))],
    slurStops: [...new Set(read.flatMap((r) => r.marks.slurStops))],
    slide: read.some((r) => r.marks.slide),
    printed: [...new Set(read.flatMap((r) => r.marks.printed))],
    ...(strokes !== undefined && { strokes }),
    ...(bow && { bow }),
  };
}

function later(at: Fraction, by: Fraction): Fraction {
  const sum = at.add(by);
  return sum.compare(ZERO) < 0 ? ZERO : sum;
}

function readBarline(barline: Element, bars: ReadBars, measure: string, losses: Losses): void {
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
    if (mark.name === 'ending') {
      const times = [...new Set(attribute(mark, 'number')?.match(/[1-9]/g) ?? [])].join(', ');
      if (attribute(mark, 'type') === 'start') bars.ending = times || '1';
      else if (!repeat) bars.endingAfter = true;
    } else if (mark.name === 'fermata') {
      losses.leftOut(measure, 'a fermata over a bar line');
    } else if (!['bar-style', 'repeat', 'ending', 'footnote', 'level'].includes(mark.name)) {
      losses.leftOut(measure, `the mark “${spoken(mark.name)}” on a bar line`);
    }
  }
}
