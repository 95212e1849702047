import Fraction from 'fraction.js';
import type { JumpWord } from '../../../grammar/marks';
import { t } from '../../l10n/translate';
import type { Meter } from '../../music/meter';
import type { Clef } from '../../scene/staff/clef';
import type { Losses } from '../score/losses';
import type { Directions, Grace, Measure } from '../score/measure';
import { oneLine } from '../score/score';
import type { Chord, WrittenNote } from '../score/written-note';
import { clefOf, keyOf, meterOf, type PartState, readAttributes, restsOf } from './attributes';
import { type ReadBars, readBarline } from './barline';
import { breakingSaid } from './brackets';
import { readDirection, readDynamics, readSound } from './direction';
import { attribute, child, children, type Element, textOf } from './element';
import { type ReadNote, readNoteElement, spoken } from './note';
import type { ScoreMark } from './score-marks';
import { durationOf, exact, printedValue, timeOf } from './time';

const ZERO = new Fraction(0);
const EIGHTH = new Fraction(1, 8);
const SMALL = new Fraction(1, 16);
/** What a measure may hold that a passage has no need of. */
const LAYOUT = new Set(['print', 'bookmark', 'link', 'grouping', 'listening']);

/** Reads the measures of one part in order; `marks` are what the score says of each of them in other parts. */
export function readMeasures(
  elements: readonly Element[],
  marks: readonly (readonly ScoreMark[])[],
  losses: Losses,
): readonly Measure[] {
  const state: PartState = { divisions: 1, transposition: { steps: 0, semitones: 0 }, ossia: new Set() };
  return elements.map((element, index) => {
    const label = oneLine(attribute(element, 'number') ?? String(index + 1));
    return new MeasureReader(label, state, losses).read(element, marks[index] ?? []);
  });
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

/** One measure, read from its first part to its last: where in time the reading stands, and what has been found so far. */
class MeasureReader {
  private at = ZERO;
  private end = ZERO;
  private ossiaTold = false;
  private readonly pending: Pending[] = [];
  private readonly directions: (Directions & { onset: Fraction })[] = [];
  private readonly jumps: JumpWord[] = [];
  private readonly bars: ReadBars = { repeatBefore: false, repeatAfter: false, doubleAfter: false };
  private readonly changes: { meter?: Meter | 'free'; key?: string; clef?: Clef; clefAfter?: Clef; restsTogether?: number } = {};

  constructor(
    private readonly label: string,
    private readonly state: PartState,
    private readonly losses: Losses,
  ) {}

  read(element: Element, marks: readonly ScoreMark[]): Measure {
    for (const mark of marks) this.mark(mark.element, mark.onset);
    for (const part of element.children) this.part(part);
    return {
      label: this.label,
      implicit: attribute(element, 'implicit') === 'yes',
      length: this.end,
      ...this.sounding(),
      directions: this.directions,
      ...this.bars,
      ...(this.jumps.length > 0 && { jumps: this.jumps }),
      ...this.changes,
    };
  }

  private part(part: Element): void {
    const { divisions } = this.state;
    if (this.isOssia(part)) {
      if (part.name === 'note' && !child(part, 'chord') && !child(part, 'grace')) this.move(timeOf(part, divisions));
      return;
    }
    switch (part.name) {
      case 'note':
        this.note(part);
        break;
      case 'backup':
        this.move(timeOf(part, divisions).neg());
        break;
      case 'forward':
        this.move(timeOf(part, divisions));
        break;
      case 'attributes':
        this.attributes(part);
        break;
      case 'direction': {
        const shift = exact(textOf(part, 'offset'))?.div(4 * divisions);
        // An offset that is not heard (MusicXML 4.0: `sound` is no unless said) only moves the print; a small one means the place it is moved from.
        const heard = children(part, 'offset').some((offset) => attribute(offset, 'sound') === 'yes');
        this.mark(part, shift && (heard || shift.abs().compare(SMALL) >= 0) ? later(this.at, shift) : this.at);
        break;
      }
      case 'sound':
      case 'barline':
        this.mark(part, this.at);
        break;
      case 'harmony':
        this.losses.leftOut(this.label, t('a chord symbol'));
        break;
      default:
        if (!LAYOUT.has(part.name)) this.losses.leftOut(this.label, t('the mark “{name}”', { name: spoken(part.name) }));
    }
  }

  /** True of what stands on an ossia, which is left out: it is told once for a measure. */
  private isOssia(part: Element): boolean {
    if (part.name !== 'note' && part.name !== 'direction') return false;
    if (!this.state.ossia.has(textOf(part, 'staff') ?? '1')) return false;
    if (!this.ossiaTold) this.losses.notesLeftOut(this.label, t('an ossia, another way of playing the bar'));
    this.ossiaTold = true;
    return true;
  }

  private move(by: Fraction): void {
    this.at = this.at.add(by);
    // Rounded durations can leave a voice a little before or after the start it should return to.
    const near = new Fraction(1, 4 * this.state.divisions);
    if (this.at.compare(ZERO) < 0 || (by.compare(ZERO) < 0 && this.at.compare(near) < 0)) this.at = ZERO;
    if (this.at.compare(this.end) > 0) this.end = this.at;
  }

  private note(part: Element): void {
    const { label, losses, state } = this;
    const read = readNoteElement(part, state.transposition, label, losses);
    const last = this.pending.at(-1);
    const grace = child(part, 'grace') !== undefined;
    if (child(part, 'chord') && last && last.grace === grace) {
      if (read.written) last.notes.push(read.written);
      last.read.push(read);
      return;
    }
    const duration = grace ? ZERO : durationOf(part, state.divisions);
    const alone = child(part, 'cue') !== undefined && !grace;
    if (alone) losses.leftOut(label, t('cue notes of another part; rests stand in their place'));
    const value = grace ? (printedValue(part) ?? EIGHTH) : undefined;
    this.pending.push({
      onset: this.at,
      duration,
      voice: textOf(part, 'voice') ?? '1',
      grace,
      ...(value && { value }),
      notes: read.written && !alone ? [read.written] : [],
      read: [read],
    });
    for (const dynamics of read.dynamics) this.say({ instructions: [], words: readDynamics(dynamics, label, losses) }, this.at);
    this.move(duration);
  }

  private attributes(part: Element): void {
    const { changes, label, losses } = this;
    readAttributes(part, this.state, label, losses);
    const first = this.at.equals(ZERO);
    const meter = first ? meterOf(part, label, losses) : undefined;
    if (meter) changes.meter = meter;
    if (!first && child(part, 'time')) losses.notesLeftOut(label, t('a change of meter inside the bar'));
    const key = keyOf(part, label, losses);
    if (key !== undefined && !first && key !== this.state.key)
      losses.changed(label, t('a change of key inside the bar, moved to its beginning'), key);
    if (key !== undefined) changes.key = this.state.key = key;
    const rests = restsOf(part);
    if (rests) changes.restsTogether = rests;
    const clef = clefOf(part);
    if (clef) changes[first ? 'clef' : 'clefAfter'] = clef;
  }

  /** A bar line, a direction or what is heard and not seen. */
  private mark(mark: Element, onset: Fraction): void {
    const { label, losses } = this;
    if (mark.name === 'barline') readBarline(mark, this.bars, label, losses);
    else if (mark.name === 'direction') this.say(readDirection(mark, label, losses), onset);
    else this.say(readSound(mark, label, losses), onset);
  }

  private say(said: Directions, onset: Fraction): void {
    if (said.jumps) this.jumps.push(...said.jumps.filter((jump) => !this.jumps.includes(jump)));
    const { words, instructions, marks, tempo, tuning } = said;
    if (words.length + instructions.length > 0 || marks || tempo !== undefined || tuning !== undefined)
      this.directions.push({ ...said, onset });
  }

  /** The notes that were read, as chords and as grace notes. */
  private sounding(): { readonly chords: readonly Chord[]; readonly graces: readonly Grace[] } {
    const { label, losses } = this;
    const chords: Chord[] = [];
    const graces: Grace[] = [];
    for (const { grace, read, value, ...rest } of this.pending) {
      const notes = withBreaking(rest.notes, read, label, losses);
      const chord: Chord = { ...rest, notes, measure: label, marks: joined(read), ...(value && { grace: value }) };
      if (grace) graces.push({ chord, onset: rest.onset });
      else if (rest.duration.compare(ZERO) > 0) chords.push(chord);
      else if (rest.notes.length > 0) losses.notesLeftOut(label, t('a note without a duration'));
    }
    return { chords, graces };
  }
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
    losses.leftOut(measure, t('a bracket about notes of a chord'));
    return notes;
  }
  const last = heads.at(-1)?.written;
  return notes.map((note) => (note === last ? { ...note, hints: [...note.hints, breaking] } : note));
}

function joined(read: readonly ReadNote[]): Chord['marks'] {
  const bow = read.find((r) => r.marks.bow)?.marks.bow;
  const strokes = read.find((r) => r.marks.strokes)?.marks.strokes;
  const byTurns = read.find((r) => r.marks.byTurns)?.marks.byTurns;
  return {
    slurStarts: [...new Set(read.flatMap((r) => r.marks.slurStarts))],
    slurStops: [...new Set(read.flatMap((r) => r.marks.slurStops))],
    slide: read.some((r) => r.marks.slide),
    printed: [...new Set(read.flatMap((r) => r.marks.printed))],
    ...(strokes !== undefined && { strokes }),
    ...(byTurns && { byTurns }),
    ...(bow && { bow }),
  };
}

function later(at: Fraction, by: Fraction): Fraction {
  const sum = at.add(by);
  return sum.compare(ZERO) < 0 ? ZERO : sum;
}
