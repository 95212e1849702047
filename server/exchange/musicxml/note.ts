import { hintKind } from '../../../grammar/hints';
import { MARKS, type MarkWord } from '../../../grammar/marks';
import type { Finger, StringNumber } from '../../../grammar/tree';
import { t } from '../../l10n/translate';
import { type Pitch, semitone, spell, transposed } from '../../music/pitch';
import { TRILLS } from '../../passage/ornament';
import type { Losses } from '../score/losses';
import { oneLine } from '../score/score';
import type { ChordMarks, WrittenNote } from '../score/written-note';
import { bracketEndOf } from './brackets';
import { attribute, child, children, type Element, numberOf, textOf } from './element';
import { marksOf, withAccidental } from './signs';

/** White-key steps and semitones from the printed to the sounding pitch. */
export interface Transposition {
  readonly steps: number;
  readonly semitones: number;
}

/** What one `<note>` element says besides its place in time. `written` is absent for rests. */
export interface ReadNote {
  readonly written?: WrittenNote;
  readonly marks: ChordMarks;
  readonly dynamics: readonly Element[];
  /** Ends of brackets about notes that are struck together. */
  readonly brackets: readonly string[];
}

/** Children of `<note>` and `<notations>` that say nothing beyond what is read elsewhere: layout, and the spelling of durations. */
const LAYOUT = new Set(
  `chord pitch rest unpitched grace cue duration tie voice type dot time-modification notehead notations instrument footnote level
  accidental stem staff beam play listen tied tuplet editorial`.split(/\s+/),
);

/** Hints that MusicXML has elements of its own for. */
const OWN_ELEMENTS: readonly (string | undefined)[] = ['string', 'finger', 'fingers'];

/** Reads one `<note>`; `losses` gets whatever of it a passage can't say. */
export function readNoteElement(note: Element, by: Transposition, measure: string, losses: Losses): ReadNote {
  const marks = {
    slurStarts: [] as string[],
    slurStops: [] as string[],
    slide: false,
    bow: undefined as 'up' | 'down' | undefined,
    printed: [] as MarkWord[],
    strokes: undefined as number | undefined,
    byTurns: undefined as ChordMarks['byTurns'],
  };
  const print = (mark: Element): boolean => {
    const known = marksOf(mark.name);
    if (!known) return false;
    if (mark.name === 'tremolo') {
      const type = attribute(mark, 'type') ?? 'single';
      const count = Number(mark.text || 3);
      if (count >= 1 && count <= 2) marks.strokes = count;
      if (type === 'start' || type === 'stop') {
        marks.byTurns = type;
        return true;
      }
    }
    // Only where no sign stands before it, a wavy line says by itself that there is a trill.
    if (mark.name === 'wavy-line' && (attribute(mark, 'type') !== 'start' || marks.printed.some((word) => TRILLS.has(word))))
      return true;
    if (known.near)
      losses.changed(
        measure,
        t('the mark “{name}”, written as {words}', { name: spoken(mark.name), words: known.words.join(' ') }),
      );
    marks.printed.push(...known.words);
    return true;
  };
  /** It belongs to the ornament before it. */
  const accidental = ({ text }: Element): void => {
    const last = marks.printed.pop();
    // A transposition that is no octave would make another of it.
    const altered = last && by.steps % 7 === 0 ? withAccidental(last, text) : undefined;
    if (last) marks.printed.push(altered ?? last);
    if (!altered) losses.leftOut(measure, t('an accidental at an ornament'));
  };
  const dynamics: Element[] = [];
  const brackets: string[] = [];
  const technical: Element[] = [];
  let tied = children(note, 'tie').some((t) => attribute(t, 'type') === 'start');
  for (const part of note.children) {
    if (part.name === 'lyric') losses.leftOut(measure, t('the words sung to it'));
    else if (!LAYOUT.has(part.name)) losses.leftOut(measure, t('the mark “{name}”', { name: spoken(part.name) }));
  }
  const head = textOf(note, 'notehead');
  if (head !== undefined && !['normal', 'diamond', 'none', 'other'].includes(head)) {
    losses.changed(measure, t('a note head of another shape, read as a plain one'), spoken(oneLine(head)));
  }
  for (const group of children(note, 'notations')) {
    for (const mark of group.children) {
      const type = attribute(mark, 'type');
      if (mark.name === 'tied') {
        tied ||= type === 'start' && !child(note, 'tie');
        if (type === 'let-ring') losses.leftOut(measure, t('a tie that lets the note ring'));
      } else if (mark.name === 'slur') {
        const number = attribute(mark, 'number') ?? '1';
        if (type === 'start') marks.slurStarts.push(number);
        else if (type === 'stop') marks.slurStops.push(number);
      } else if (mark.name === 'slide' || mark.name === 'glissando') marks.slide ||= type === 'stop';
      else if (mark.name === 'dynamics') dynamics.push(mark);
      else if (mark.name === 'non-arpeggiate') brackets.push(bracketEndOf(mark));
      else if (mark.name === 'technical') technical.push(...mark.children);
      else if (mark.name === 'articulations' || mark.name === 'ornaments') {
        for (const inner of mark.children) {
          if (inner.name === 'scoop') marks.slide = true;
          else if (inner.name === 'accidental-mark') accidental(inner);
          else if (!print(inner)) losses.leftOut(measure, t('the mark “{name}”', { name: spoken(inner.name) }));
        }
      } else if (!LAYOUT.has(mark.name) && !print(mark))
        losses.leftOut(measure, t('the mark “{name}”', { name: spoken(mark.name) }));
    }
  }
  for (const mark of technical) {
    if (marksOf(mark.name)) print(mark);
    if (mark.name === 'up-bow') marks.bow = 'up';
    else if (mark.name === 'down-bow') marks.bow = 'down';
  }
  const { bow, strokes, byTurns, printed, ...others } = marks;
  const rest = {
    ...others,
    printed: inOrder(printed),
    ...(strokes !== undefined && { strokes }),
    ...(byTurns && { byTurns }),
  };
  const pitch = readPitch(note, by, measure, losses);
  const read = { marks: bow ? { ...rest, bow } : rest, dynamics, brackets };
  return pitch ? { ...read, written: { pitch, tied, ...headOf(note), ...hintsOf(technical, measure, losses) } } : read;
}

/** Each once, in the order of the language's table. */
function inOrder(words: readonly MarkWord[]): readonly MarkWord[] {
  return MARKS.map(({ word }) => word).filter((word) => words.includes(word));
}

/** `strong-accent` as a player would say it. */
export function spoken(name: string): string {
  return name.replace(/-/g, ' ');
}

function headOf(note: Element): Pick<WrittenNote, 'diamond' | 'aside'> {
  const head = child(note, 'notehead');
  const size = child(note, 'type') && attribute(child(note, 'type') as Element, 'size');
  return {
    diamond: head?.text === 'diamond' || (head && attribute(head, 'smufl')?.startsWith('noteheadDiamond')) === true,
    aside:
      (head !== undefined && attribute(head, 'parentheses') === 'yes') ||
      size === 'cue' ||
      size === 'grace-cue' ||
      child(note, 'cue') !== undefined,
  };
}

type Hints = Pick<WrittenNote, 'harmonic' | 'string' | 'fingers' | 'openMark' | 'hints'>;

function isOtherHint(text: string): boolean {
  const kind = hintKind(text);
  return kind !== undefined && !OWN_ELEMENTS.includes(kind);
}

function hintsOf(technical: readonly Element[], measure: string, losses: Losses): Hints {
  let harmonic: WrittenNote['harmonic'];
  let string: StringNumber | undefined;
  const fingers: Finger[] = [];
  const hints: string[] = [];
  let openMark = false;
  for (const mark of technical) {
    switch (mark.name) {
      case 'up-bow':
      case 'down-bow':
        break;
      case 'harmonic':
        harmonic = harmonicOf(mark);
        break;
      case 'open-string':
        openMark = true;
        break;
      case 'thumb-position':
        fingers.push('T');
        break;
      case 'string':
        if (/^[1-4]$/.test(mark.text)) string = Number(mark.text) as StringNumber;
        else losses.leftOut(measure, t('a string number, as the strings are I to IV'), `“${oneLine(mark.text)}”`);
        break;
      case 'fingering': {
        const read = fingersOf(mark);
        if (read) fingers.push(...read);
        else
          losses.leftOut(
            measure,
            isSecondThought(mark) ? t('a substitution or alternative fingering') : 'a fingering',
            `“${oneLine(mark.text)}”`,
          );
        break;
      }
      case 'other-technical':
        if (attribute(mark, 'smufl') === 'stringsHarmonic') harmonic ??= {};
        else if (isOtherHint(mark.text)) hints.push(mark.text);
        else losses.leftOut(measure, t('the mark “{name}”', { name: oneLine(mark.text) }));
        break;
      default:
        if (!marksOf(mark.name)) losses.leftOut(measure, t('the mark “{name}”', { name: spoken(mark.name) }));
    }
  }
  return { fingers, hints, openMark, ...(harmonic && { harmonic }), ...(string && { string }) };
}

function harmonicOf(mark: Element): NonNullable<WrittenNote['harmonic']> {
  const kind = child(mark, 'natural') ? 'natural' : child(mark, 'artificial') ? 'artificial' : undefined;
  const names = child(mark, 'base-pitch')
    ? 'base'
    : child(mark, 'touching-pitch')
      ? 'touch'
      : child(mark, 'sounding-pitch')
        ? 'sound'
        : undefined;
  return { ...(kind && { kind }), ...(names && { names }) };
}

function isSecondThought(mark: Element): boolean {
  return attribute(mark, 'substitution') === 'yes' || attribute(mark, 'alternate') === 'yes';
}

function fingersOf(mark: Element): readonly Finger[] | undefined {
  if (isSecondThought(mark)) return undefined;
  // An x before a cellist's finger says that the hand opens, which follows from the fingers.
  const parts = mark.text.replace(/^x(?=[1-4]$)/i, '').split(/\s*[-–]\s*/);
  if (parts.length > 2 || !parts.every((part) => /^(?:[0-4]|t|th|thumb|\+)$/i.test(part))) return undefined;
  return parts.map((part) => (/^[0-4]$/.test(part) ? (Number(part) as Finger) : 'T'));
}

function readPitch(note: Element, by: Transposition, measure: string, losses: Losses): Pitch | undefined {
  const given = child(note, 'pitch');
  if (!given) {
    if (child(note, 'unpitched')) losses.notesLeftOut(measure, t('a note without a pitch; a rest stands in its place'));
    return undefined;
  }
  const letter = textOf(given, 'step') ?? '';
  const octave = numberOf(given, 'octave') ?? Number.NaN;
  const alter = numberOf(given, 'alter') ?? 0;
  if (!/^[A-G]$/.test(letter) || !Number.isInteger(octave) || octave < 0 || octave > 9 || Math.abs(alter) > 12) {
    losses.notesLeftOut(
      measure,
      t('a note whose pitch can’t be read; a rest stands in its place'),
      oneLine(`${letter} ${alter} ${octave}`),
    );
    return undefined;
  }
  const whole = Math.round(alter);
  if (whole !== alter)
    losses.notesChanged(
      measure,
      t('a pitch between the semitones, written as the nearest semitone'),
      t('{letter}{octave}, {alter} semitones', { letter, octave, alter }),
    );
  const natural: Pitch = { letter: letter as Pitch['letter'], alter: 0, octave };
  const printed = Math.abs(whole) <= 2 ? { ...natural, alter: whole } : spell(semitone(natural) + whole, whole < 0);
  const sounding = by.steps === 0 && by.semitones === 0 ? printed : transposed(printed, by.steps, by.semitones);
  if (sounding.octave >= 0 && sounding.octave <= 9) return sounding;
  losses.notesLeftOut(measure, t('a note that the transposition puts out of range; a rest stands in its place'));
  return undefined;
}
