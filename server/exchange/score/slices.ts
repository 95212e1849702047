import Fraction from 'fraction.js';
import { REST_MARKS } from '../../../grammar/marks';
import { MOST_NOTES } from '../../../grammar/note-parser';
import { t } from '../../l10n/translate';
import { type Pitch, pitchName, semitone } from '../../music/pitch';
import { type Form, formsOf } from './harmonic-forms';
import type { Losses } from './losses';
import type { Chord } from './written-note';

/** A stretch of time in which the same notes sound: a note, a double stop or a rest of the passage. */
export interface Slice {
  readonly bar: number;
  readonly measure: string;
  readonly onset: Fraction;
  readonly duration: Fraction;
  readonly notes: readonly SliceNote[];
  /** Chords of the score that begin here. */
  readonly begins: readonly Chord[];
  readonly slide: boolean;
  /** What is printed over it; on the slices of a note that is cut, over the first alone. */
  readonly printed: readonly string[];
  readonly strokes?: number;
  /** An end of a tremolo between two notes. */
  readonly byTurns?: 'start' | 'stop';
  /** A grace note: the value it is printed as. It has no duration. */
  readonly grace?: Fraction;
}

export interface SliceNote extends Form {
  /** Held over from the slice before, whatever its own form says. */
  readonly held: boolean;
}

interface Sounding {
  readonly chord: Chord;
  readonly forms: readonly Form[];
  readonly end: Fraction;
}

const ZERO = new Fraction(0);

/**
 * Cuts a bar wherever a note of any voice begins or ends, and ties what sounds on across a cut, so
 * that voices become double stops and chords. Where more than four notes sound the highest four stay.
 */
export function slicesOf(
  chords: readonly Chord[],
  bar: { readonly index: number; readonly label: string; readonly length: Fraction },
  openStrings: readonly Pitch[],
  losses: Losses,
): readonly Slice[] {
  const soundings = together(chords)
    .map((chord) => ({
      chord,
      forms: formsOf(chord.notes, openStrings, chord.measure, losses),
      end: chord.onset.add(chord.duration),
    }))
    .sort((a, b) => a.chord.onset.compare(b.chord.onset));
  const cuts = cutsOf(soundings, chords, bar.length);
  const beginning = new Map<string, Chord[]>();
  for (const chord of chords) {
    const at = chord.onset.toFraction();
    const same = beginning.get(at);
    if (same) same.push(chord);
    else beginning.set(at, [chord]);
  }
  const slices: Slice[] = [];
  let sounding: readonly Sounding[] = [];
  let next = 0;
  for (const [i, onset] of cuts.entries()) {
    const end = cuts[i + 1];
    if (!end) break;
    const begun: Sounding[] = [];
    for (; soundings[next] && (soundings[next] as Sounding).chord.onset.compare(onset) <= 0; next++)
      begun.push(soundings[next] as Sounding);
    sounding = [...sounding.filter((s) => s.end.compare(onset) > 0), ...begun];
    const notes = sounding.flatMap(({ chord, forms, end: last }) =>
      sliceNotes(forms, !chord.onset.equals(onset), last.compare(end) > 0),
    );
    const begins = beginning.get(onset.toFraction()) ?? [];
    slices.push({
      bar: bar.index,
      measure: bar.label,
      onset,
      duration: end.sub(onset),
      notes: playable(notes, bar.label, losses),
      begins,
      slide: begins.some((c) => c.marks.slide),
      ...printedOver(begins, notes.length === 0, losses),
    });
  }
  return slices;
}

/** What is printed over the notes that begin together, or over a rest where none sounds. */
function printedOver(begins: readonly Chord[], silent: boolean, losses: Losses): Pick<Slice, 'printed' | 'strokes' | 'byTurns'> {
  const sounding = begins.filter((c) => c.notes.length > 0);
  const strokes = sounding.find((c) => c.marks.strokes !== undefined)?.marks.strokes;
  const printed = [...new Set(sounding.flatMap((c) => c.marks.printed))];
  if (silent) printed.push(...REST_MARKS.filter((word) => begins.some((c) => c.marks.printed.includes(word))));
  for (const { measure, notes, marks } of begins) {
    if (notes.length > 0) continue;
    for (const word of marks.printed) if (!printed.includes(word)) losses.leftOut(measure, t('a mark over a rest'), word);
  }
  const byTurns = sounding.find((c) => c.marks.byTurns)?.marks.byTurns;
  return { printed, ...(strokes !== undefined && { strokes }), ...(byTurns && { byTurns }) };
}

/** A grace note as a slice of its own, before the slices of the bar that it stands at. */
export function graceSlice(
  chord: Chord,
  value: Fraction,
  bar: { readonly index: number; readonly label: string },
  openStrings: readonly Pitch[],
  losses: Losses,
): Slice {
  const forms = formsOf(chord.notes, openStrings, chord.measure, losses);
  return {
    bar: bar.index,
    measure: bar.label,
    onset: chord.onset,
    duration: ZERO,
    notes: playable(
      forms.map((form) => ({ ...form, held: false })),
      bar.label,
      losses,
    ),
    begins: [chord],
    slide: chord.marks.slide,
    grace: value,
    ...printedOver([chord], false, losses),
  };
}

/** The notes of a chord in one slice: what is said once is said where it begins. */
function sliceNotes(forms: readonly Form[], held: boolean, goesOn: boolean): readonly SliceNote[] {
  return forms.map((form): SliceNote => {
    const tied = form.tied || goesOn;
    if (!held) return { ...form, held, tied };
    const { expected: _, ...rest } = form;
    return { ...rest, hints: [], held, tied };
  });
}

/** Chords of several voices that begin and end together are one: a stopped note and its diamond may stand in two voices. */
function together(chords: readonly Chord[]): readonly Chord[] {
  const found = new Map<string, Chord>();
  for (const chord of chords) {
    if (chord.notes.length === 0) continue;
    const key = `${chord.onset.toFraction()} ${chord.duration.toFraction()}`;
    const same = found.get(key);
    found.set(key, same ? { ...same, notes: [...same.notes, ...chord.notes] } : chord);
  }
  return [...found.values()];
}

function cutsOf(soundings: readonly Sounding[], chords: readonly Chord[], length: Fraction): readonly Fraction[] {
  const cuts = new Map<string, Fraction>();
  const cut = (at: Fraction) => {
    if (at.compare(ZERO) >= 0 && at.compare(length) <= 0) cuts.set(at.toFraction(), at);
  };
  cut(ZERO);
  cut(length);
  for (const { chord, end } of soundings) {
    cut(chord.onset);
    cut(end);
  }
  // Rests of the leading voice keep their spelling where nothing else sounds.
  const rests = chords
    .filter((c) => c.notes.length === 0 && c.voice === chords[0]?.voice)
    .sort((a, b) => a.onset.compare(b.onset));
  let next = 0;
  let sounds = ZERO;
  for (const { onset } of rests) {
    for (; soundings[next] && (soundings[next] as Sounding).chord.onset.compare(onset) < 0; next++) {
      const { end } = soundings[next] as Sounding;
      if (end.compare(sounds) > 0) sounds = end;
    }
    if (sounds.compare(onset) <= 0) cut(onset);
  }
  return [...cuts.values()].sort((a, b) => a.compare(b));
}

function playable(notes: readonly SliceNote[], measure: string, losses: Losses): readonly SliceNote[] {
  if (notes.length <= MOST_NOTES) return notes;
  const ranked = [...notes].sort((a, b) => semitone(b.pitch) - semitone(a.pitch));
  const kept = new Set(ranked.slice(0, MOST_NOTES));
  const names = ranked.slice(MOST_NOTES).map((n) => pitchName(n.pitch));
  losses.notesLeftOut(measure, t('notes of a chord of more than four'), `${names.join(' ')} of ${notes.length}`);
  return notes.filter((n) => kept.has(n));
}

/**
 * Ties each held note to the one that it is held into. Scores often don't repeat the circle or the
 * diamond there, so the second note takes over the form of the first. A tie that leads nowhere is listed.
 */
export function tiesJoined(slices: readonly Slice[], losses: Losses): readonly Slice[] {
  const done: Slice[] = [];
  let held: readonly SliceNote[] = [];
  for (const slice of slices) {
    const waiting = [...held];
    const notes = slice.notes.map((note): SliceNote => {
      const from = waiting.findIndex(
        (w) => w.text === note.text || (note.text === pitchName(note.pitch) && semitone(w.pitch) === semitone(note.pitch)),
      );
      if (from < 0) return note;
      const [first] = waiting.splice(from, 1) as [SliceNote];
      const { expected: _, ...rest } = note;
      return { ...rest, text: first.text, held: true };
    });
    const last = done.at(-1);
    if (waiting.length > 0 && last) {
      for (const note of waiting) losses.leftOut(last.measure, t('a tie that leads to no note of the same pitch'), note.text);
      done[done.length - 1] = { ...last, notes: last.notes.map((n) => (waiting.includes(n) ? { ...n, tied: false } : n)) };
    }
    const next = { ...slice, notes };
    done.push(next);
    held = notes.filter((n) => n.tied);
  }
  const last = done.at(-1);
  if (last && held.length > 0) {
    for (const note of held) losses.leftOut(last.measure, t('a tie that leads to no note of the same pitch'), note.text);
    done[done.length - 1] = { ...last, notes: last.notes.map((n) => ({ ...n, tied: false })) };
  }
  return done;
}
