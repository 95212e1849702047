import { type Case, TRADE } from '../case';
import { allOn, NO_FINGER_TWICE, NO_OPEN_STRING, RUNS_LIKE_A_SCALE, shiftsAtMost } from '../properties';

/** Singing lines, and the fourth finger against the open string. */
export const MELODY: readonly Case[] = [
  {
    name: 'slow melody turning about E',
    passage: 'tempo: 1/4 = 52\nkey: D major\n1/4 slur(D5 E5) slur(F#5 E5) 1/2 D5',
    accepted: ['II 1 2 3 2 1', 'II 2 3 4 3 2', 'II 3 4 I 1 II 4 3'],
    why: 'On the A string in third position (or second); at the least no open E between stopped notes of a slow slur.',
    source: TRADE,
  },
  {
    name: 'slow melody up the A string and back',
    passage: 'tempo: 1/4 = 50\nkey: G major\n1/4 slur(D5 E5 F#5 G5) slur(F#5 E5) 1/2 D5',
    accepted: ['II 1 2 3 4 3 2 1'],
    holds: [NO_OPEN_STRING],
    why: 'It lies under the hand in third position, in one colour.',
    source: TRADE,
  },
  {
    name: 'melody on the G string',
    passage: 'tempo: 1/4 = 54\nkey: G minor\n1/4 slur(D4[IV] Eb4[IV] F4[IV]) slur(G4[IV] F4[IV] Eb4[IV]) 1/2 D4[IV]',
    holds: [allOn('IV'), NO_FINGER_TWICE, shiftsAtMost(2)],
    why: 'Asked for on one string: one hand where it can be, shifts that are not heard as slides.',
    source: TRADE,
  },
  {
    name: 'broad line climbing the G string',
    passage: 'tempo: 1/4 = 54\nkey: C major\n1/4 slur(C4[IV] D4[IV]) slur(E4[IV] F4[IV]) slur(G4[IV] A4[IV]) 1/2 B4[IV]',
    holds: [allOn('IV'), RUNS_LIKE_A_SCALE, shiftsAtMost(3)],
    why: 'Two or three notes to a position; a whole step inside a slur is not slid on one finger.',
    source: TRADE,
  },
  {
    name: 'soft line past open A',
    passage: 'tempo: 1/4 = 56\nkey: F major\np 1/4 slur(F4 G4 A4) slur(Bb4 A4 G4) 1/2 F4',
    holds: [NO_OPEN_STRING],
    why: 'A slow soft line hides the change of string: fourth finger, or a higher position.',
    source: TRADE,
  },
  {
    name: 'half steps may slide',
    passage: 'tempo: 1/4 = 60\nkey: A minor\n1/4 slur(A5 G#5) slur(A5 C6) 1/2 B5',
    holds: [NO_OPEN_STRING, NO_FINGER_TWICE],
    why: 'Only the half step may be one finger.',
    source: TRADE,
  },
  {
    name: 'turn about E at speed',
    passage: 'tempo: 1/4 = 100\nkey: C major\n1/16 slur(D5 E5 D5 C5) slur(D5 E5 D5 C5)',
    accepted: ['II 3 4 3 2 3 4 3 2', 'II 2 3 2 1 2 3 2 1'],
    why: 'The fourth finger (or second position) saves two crossings inside the slur.',
    source: TRADE,
  },
  {
    name: 'turn about A at speed',
    passage: 'tempo: 1/4 = 100\nkey: G major\n1/16 slur(G4 A4 G4 F#4) slur(G4 A4 G4 F#4)',
    accepted: ['III 3 4 3 2 3 4 3 2', 'III 2 3 2 1 2 3 2 1'],
    why: 'As about E.',
    source: TRADE,
  },
  {
    name: 'down to the open string and back up',
    passage: 'tempo: 1/4 = 112\nkey: D major\n1/16 slur(F#5 E5 F#5 G5) slur(F#5 E5 F#5 G5)',
    accepted: ['I 1 0 1 2 1 0 1 2', 'II 3 2 3 4 3 2 3 4'],
    why: 'On E the lowest note of the turn is the open string, or all of it lies in third position on A; never the fourth finger between, with two crossings.',
    source: TRADE,
  },
  {
    name: 'sighs coming down the A string',
    passage: 'tempo: 1/4 = 72\nkey: A minor\n1/8 slur(E5 D5) slur(D5 C5) slur(C5 B4) slur(B4 A4)',
    accepted: ['II 4 3 3 2 2 1 1 0', 'II 2 1 1 III 4 4 3 3 2', 'II 3 2 2 1 1 III 4 4 3'],
    why: 'Each pair on one string as far as it goes, the repeated note with its finger, no open E falling on D.',
    source: TRADE,
  },
  {
    name: 'arpeggio through open strings at speed',
    passage: 'tempo: 1/4 = 116\nkey: A major\n1/16 A5 E5 C#5 A4 C#5 E5 A5 E5',
    accepted: ['I 3 {I 0 | II 4} II 2 {II 0 | III 4} II 2 {I 0 | II 4} I 3 {I 0 | II 4}'],
    why: 'First position; short open strings are welcome.',
    source: TRADE,
  },
];
