import type { Level } from '../../server/hand/skill';
import type { Family } from '../../server/instrument/instrument';

/** What every string player practises, written as passages for each instrument. The pitches are plain scale practice; nothing is taken from a book. */

export interface Exercise {
  readonly name: string;
  /** Note values it is tried in. */
  readonly values: readonly string[];
  /** The notes of one instrument, without durations. */
  notes(family: Family): string;
}

const SHARPS = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];
const MAJOR = [0, 2, 4, 5, 7, 9, 11];

/** MIDI number to the pitch as written. */
function pitch(key: number): string {
  return `${SHARPS[key % 12]}${Math.floor(key / 12) - 1}`;
}

/** The degree of a major scale, counted from 0 up through the octaves. */
function degree(tonic: number, at: number): number {
  return tonic + 12 * Math.floor(at / 7) + MAJOR[((at % 7) + 7) % 7]!;
}

/** Up and down, the top note once. */
function upAndDown<T>(notes: readonly T[]): readonly T[] {
  return [...notes, ...notes.slice(0, -1).reverse()];
}

function scale(degrees: number, write: (at: number) => string): string {
  return upAndDown(Array.from({ length: degrees }, (_, at) => write(at))).join(' ');
}

/** Semitones between the violin's strings and another's. */
const BELOW: Readonly<Record<Family, number>> = { violin: 0, viola: -7, cello: -19 };

/** The lowest string of a violin. */
const G3 = 55;

/** Where the cello's thumb comes onto the second string. */
const THUMB = 57;

const octaves = (count: number): Exercise => ({
  name: `scale, ${count === 1 ? 'one octave' : `${count} octaves`}`,
  values: ['1/8', '1/16'],
  notes: (family) => scale(7 * count + 1, (at) => pitch(degree(G3 + BELOW[family], at))),
});

/** A scale of two notes at once, from the second finger's place on the lowest string up. */
const doubled = (name: string, apart: number, from: number): Exercise => ({
  name,
  values: ['1/8', '1/16'],
  notes(family) {
    const tonic = family === 'cello' ? THUMB : G3 + BELOW[family] + from;
    return scale(8, (at) => `${pitch(degree(tonic, at))}+${pitch(degree(tonic, at + apart))}`);
  },
});

export const EXERCISES: readonly Exercise[] = [
  octaves(1),
  octaves(2),
  octaves(3),
  doubled('octaves', 7, 2),
  doubled('thirds', 2, 5),
  {
    name: 'natural harmonics',
    values: ['1/8', '1/16'],
    notes(family) {
      const sounding = [67, 74, 79, 81, 86, 88, 93, 95, 100];
      return upAndDown(sounding.map((key) => `${pitch(key + BELOW[family])}o [natural]`)).join(' ');
    },
  },
  {
    name: 'artificial harmonics',
    values: ['1/8', '1/16'],
    notes(family) {
      const tonic = family === 'cello' ? THUMB + 7 : G3 + BELOW[family] + 2;
      return scale(8, (at) => `${pitch(degree(tonic, at))}<>${pitch(degree(tonic, at) + 5)}`);
    },
  },
  {
    name: 'double harmonics',
    values: ['1/8', '1/16'],
    notes(family) {
      const tonic = family === 'cello' ? THUMB : G3 + BELOW[family] + 2;
      const fourth = (key: number) => `${pitch(key)}<>${pitch(key + 5)}`;
      return scale(4, (at) => `${fourth(degree(tonic, at))}+${fourth(degree(tonic, at) + 7)}`);
    },
  },
  {
    name: 'slow melody',
    values: ['1/4'],
    notes(family) {
      const melody = [69, 74, 78, 81, 79, 78, 76, 81, 83, 86, 85, 81, 78, 79, 76, 74];
      return melody.map((key) => pitch(key + BELOW[family])).join(' ');
    },
  },
];

/** One exercise as a passage. */
export function exerciseText(
  { notes }: Exercise,
  family: Family,
  level: Level,
  bpm: number,
  value: string,
  hand = 'medium',
): string {
  return `instrument: ${family}\nlevel: ${level}\nhand: ${hand}\ntempo: 1/4 = ${bpm}\n${value} ${notes(family)} ||\n`;
}
