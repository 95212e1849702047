import Fraction from 'fraction.js';
import {
  Accidental,
  Beam,
  Dot,
  Formatter,
  GraceNote,
  GraceNoteGroup,
  MetricsDefaults,
  StaveNote,
  type StemmableNote,
  Fraction as Ticks,
  Tuplet,
  Voice,
} from 'vexflow/core';
import { beamGroupOf } from '../../music/meter';
import type { Ratio } from '../../music/note-values';
import { tupletOf } from '../../music/note-values';
import { parsePitch, step } from '../../music/pitch';
import type { SceneEvent } from '../../protocol/scene';
import { sceneMeter } from '../sound/timeline';
import type { StaffBar } from './bars';
import { goesByTurns, pairsByTurns } from './by-turns';
import type { Clef } from './clef';
import type { Printed } from './hairpins';
import { printedNotes } from './printed';
import { printedValues, type Value } from './rhythm';
import type { Signature } from './signature';

/** One note sign of a bar and what it stands for. */
export interface Engraved {
  readonly note: StaveNote;
  /** Absent for a rest. */
  readonly event?: number;
  /** The first sign of its event: the one that carries fingering and marks. */
  readonly first: boolean;
  /** Tied to the next sign of the same event. */
  readonly runsOn: boolean;
  /** What is printed at a rest, on its first sign. */
  readonly printed?: Printed;
}

/** A sign that is no rest. */
export type SoundingSign = Engraved & { readonly event: number };

export function isSounding(sign: Engraved): sign is SoundingSign {
  return sign.event !== undefined;
}

export interface EngravedBar {
  readonly bar: StaffBar;
  readonly signs: readonly Engraved[];
  readonly beams: readonly Beam[];
  readonly tuplets: readonly Tuplet[];
  readonly voice: Voice;
  readonly formatter: Formatter;
  /** An empty place that holds the grace notes at the end of the bar. */
  readonly after?: StaveNote;
  /** Width below which signs or their labels would collide, px. */
  readonly least: number;
}

// The engraver's number over a tuplet is as large as its time signature.
(MetricsDefaults.Tuplet as { fontSize?: number }).fontSize = 21;

/** What a rest of several bars takes, px. */
const BARS_REST = 130;
/** Least room for a note with its labels, px. */
const ROOM = 28;
/** The engraver's own minimum is tight; this is what reads well. */
const EASE = 1.25;
/** Room before the first and after the last note, px. */
const PADDING = 24;
/** A long note is given at most this many times the room of the bar's shortest, and one longer than a quarter this share more for each doubling. */
const LONGEST = 2;
const DOUBLED = 0.45;
/** In the engraver's ticks. */
const QUARTER = 4096;
const DIAMOND = { wide: '\ue0de', hollow: '\ue0dd', filled: '\ue0db' } as const;
/** Where rests hang, whatever the clef: a whole one from the second line from above, all others about the middle one. */
const REST_KEY: Readonly<Record<Clef, string>> = { treble: 'b/4', alto: 'c/4', tenor: 'a/3', bass: 'd/3' };
const WHOLE_REST_KEY: Readonly<Record<Clef, string>> = { treble: 'd/5', alto: 'e/4', tenor: 'c/4', bass: 'f/3' };

/** One bar as signs of the engraver, spaced but not yet placed on a staff. */
export function engrave(
  bar: StaffBar,
  events: readonly SceneEvent[],
  { clef, key }: Signature,
  meter: string | undefined,
): EngravedBar {
  const signs: Engraved[] = [];
  const tuplets: Tuplet[] = [];
  let group: StaveNote[] = [];
  let ratio: Ratio | undefined;
  let filled = new Fraction(0);
  const closeTuplet = (): void => {
    if (ratio && group.length > 1) {
      tuplets.push(
        new Tuplet(group, {
          numNotes: ratio.notes,
          notesOccupied: ratio.inTimeOf,
          location: Tuplet.LOCATION_BOTTOM,
          ratioed: false,
        }),
      );
    }
    group = [];
    filled = new Fraction(0);
  };
  let graces: GraceNote[] = [];
  const withGraces = (note: StemmableNote): void => {
    if (graces.length > 0) note.addModifier(new GraceNoteGroup(graces, false).beamNotes(), 0);
    graces = [];
  };
  for (const stretch of bar.together ? [] : bar.stretches) {
    const event = stretch.event === undefined ? undefined : events[stretch.event];
    if (event?.grace) {
      graces.push(graceNote(event, event.grace, clef));
      continue;
    }
    const turns = event && goesByTurns(events, event.index);
    const values =
      event || !isWhole(bar)
        ? printedValues(turns ? stretch.length.mul(2) : stretch.length)
        : [{ base: 1, dots: 0, length: stretch.length }];
    const own = tupletOf(stretch.length);
    if (own?.notes !== ratio?.notes) closeTuplet();
    ratio = own;
    values.forEach((value, index) => {
      const note = event ? staveNote(event, value, clef) : staveRest(value, clef, isWhole(bar));
      if (event) withGraces(note);
      // Each of two notes by turns is printed with the value of both.
      if (turns) note.applyTickMultiplier(1, 2);
      const sounding = event && { event: event.index };
      const printed = index === 0 && stretch.printed;
      signs.push({ note, ...sounding, first: index === 0, runsOn: index < values.length - 1, ...(printed && { printed }) });
      if (!own) return;
      group.push(note);
      filled = filled.add(turns ? value.length.div(2) : value.length);
      // A tuplet is full when what it holds is a plain value again.
      if (!tupletOf(filled)) closeTuplet();
    });
  }
  closeTuplet();
  for (const [one, two] of pairsByTurns(signs, events)) stemAlike(one.note, two.note);
  const notes = signs.map(({ note }) => note);
  // Grace notes that no note follows in the bar hang on an empty place at its end.
  const after = graces.length > 0 ? new StaveNote({ keys: [REST_KEY[clef]], duration: '64', type: 'r', clef }) : undefined;
  if (after) withGraces(after);
  const voice = new Voice().setMode(Voice.Mode.SOFT).addTickables(after ? [...notes, after] : notes);
  Accidental.applyAccidentals([voice], key);
  const beams = Beam.generateBeams(notes, { groups: beamGroups(meter) });
  // Beaming builds the heads anew.
  for (const { note, event } of signs) if (event !== undefined) setDiamonds(note, events[event] as SceneEvent);
  // It also moves numbers to the side of the beams; over the notes stand the fingers.
  for (const tuplet of tuplets) tuplet.setTupletLocation(Tuplet.LOCATION_BOTTOM);
  const formatter = new Formatter().joinVoices([voice]);
  const tight = notes.length > 0 ? formatter.preCalculateMinTotalWidth([voice]) : 0;
  return {
    bar,
    signs,
    beams,
    tuplets,
    voice,
    formatter,
    ...(after && { after }),
    least: bar.together ? BARS_REST : Math.max(tight * EASE, roomOf(notes, voice), ROOM) + PADDING,
  };
}

/** What a bar's notes want, px: the shortest its labels' room, longer ones more, so that one value looks alike in every bar. */
function roomOf(notes: readonly StaveNote[], voice: Voice): number {
  if (notes.length === 0) return 0;
  const ticks = notes.map((note) => note.getTicks().value());
  const shortest = Math.min(...ticks);
  const shares = ticks.map((each) => Math.min(LONGEST, voice.softmax(each) / voice.softmax(shortest)));
  // The engraver leaves a long last note all its room before the bar line, a short one but part of it.
  const tail = (shares.at(-1) as number) > 1 ? (shares.at(-1) as number) / 2 : 0;
  const doublings = Math.max(0, Math.log2(shortest / QUARTER));
  return ROOM * (1 + DOUBLED * doublings) * shares.reduce((sum, each) => sum + each, tail);
}

/** True of a bar of silence, which has a whole rest in its middle whatever its meter. */
function isWhole({ stretches, continued }: StaffBar): boolean {
  return stretches.length === 1 && stretches[0]?.event === undefined && !continued;
}

function staveRest({ base, dots }: Value, clef: Clef, alignCenter: boolean): StaveNote {
  const key = (base === 1 ? WHOLE_REST_KEY : REST_KEY)[clef];
  const rest = new StaveNote({ keys: [key], duration: String(base), type: 'r', dots, clef, alignCenter });
  if (dots > 0) Dot.buildAndAttach([rest], { all: true });
  return rest;
}

function staveNote(event: SceneEvent, { base, dots }: Value, clef: Clef): StaveNote {
  const duration = String(base);
  const note = new StaveNote({
    keys: keysOf(event).map(({ pitch, diamond }) => `${pitch}${diamond ? '/d2' : ''}`),
    duration,
    dots,
    clef,
    autoStem: true,
  });
  for (let dot = 0; dot < dots; dot++) Dot.buildAndAttach([note], { all: true });
  return note;
}

/** Stems of two notes the same way, that of the note farther from the middle line. */
function stemAlike(one: StaveNote, two: StaveNote): void {
  const away = [one, two].flatMap((note) => note.getKeyProps().map(({ line }) => line - MIDDLE_LINE));
  const farthest = away.reduce((most, each) => (Math.abs(each) > Math.abs(most) ? each : most), 0);
  for (const note of [one, two]) note.setStemDirection(farthest < 0 ? 1 : -1);
}

/** As the engraver counts lines, the lowest is 1. */
const MIDDLE_LINE = 3;

/** Small, its stem up; an eighth has the stroke of common practice through it. */
function graceNote(event: SceneEvent, value: string, clef: Clef): GraceNote {
  const base = printedValues(new Fraction(value))[0]?.base ?? 8;
  const keys = keysOf(event).map(({ pitch, diamond }) => `${pitch}${diamond ? '/d2' : ''}`);
  return new GraceNote({ keys, duration: String(base), clef, stemDirection: 1, slash: base === 8 });
}

/** A diamond shows its value as any head does: wide for a whole note, hollow for a half, filled from a quarter down. */
function setDiamonds(note: StaveNote, event: SceneEvent): void {
  const base = Number(note.getDuration());
  const heads = keysOf(event);
  note.noteHeads.forEach((head, index) => {
    const { diamond, value } = heads[index] as (typeof heads)[number];
    if (diamond) head.setText(base === 1 && value ? DIAMOND.wide : base <= 2 || !value ? DIAMOND.hollow : DIAMOND.filled);
  });
}

/**
 * The noteheads of an event as the engraver names them, lowest first. `value`: the head tells how long the note is; a diamond over
 * a stopped note only tells where that is touched and stays hollow.
 */
export function keysOf(
  event: SceneEvent,
): readonly { readonly pitch: string; readonly diamond: boolean; readonly value: boolean; readonly note: number }[] {
  const printed = printedNotes(event);
  return printed
    .map(({ pitch, head, note }) => {
      const read = parsePitch(pitch)!;
      return {
        pitch: `${read.letter.toLowerCase()}${(read.alter < 0 ? 'b' : '#').repeat(Math.abs(read.alter))}/${read.octave}`,
        diamond: head === 'diamond',
        value: head !== 'diamond' || !printed.some((other) => other.note === note && other.head === 'round'),
        note,
        height: step(read),
      };
    })
    .sort((a, b) => a.height - b.height);
}

/** Notes are beamed by the beat of the meter; by quarters where none is set. */
function beamGroups(meter: string | undefined): Ticks[] {
  const { n, d } = beamGroupOf(meter === undefined ? undefined : sceneMeter(meter));
  return [new Ticks(Number(n), Number(d))];
}

/** Highest and lowest drawn point of a sign, staff's top line at 0. */
export function extent({ note, event }: Engraved): { readonly top: number; readonly bottom: number } {
  if (event === undefined) return { top: 0, bottom: 40 };
  const heads = note.getYs();
  const stem = note.hasStem() ? note.getStemExtents() : undefined;
  const ends = stem ? [stem.topY, stem.baseY] : [];
  return { top: Math.min(...heads.map((y) => y - 5), ...ends), bottom: Math.max(...heads.map((y) => y + 5), ...ends) };
}
