import { type Case, TRADE } from '../case';
import { allOn, NO_OPEN_STRING, NO_STRING_AGAIN, RUNS_LIKE_A_SCALE, shiftsAtMost } from '../properties';

/** Scales in one to three octaves, slow and fast, diatonic and chromatic. */
export const SCALES: readonly Case[] = [
  {
    name: 'G major, two octaves, up',
    passage: 'tempo: 1/4 = 100\nkey: G major\n1/8 G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5',
    accepted: ['IV 0 1 2 3 {III 0 | IV 4} III 1 2 3 {II 0 | III 4} II 1 2 3 {I 0 | II 4} I 1 2'],
    why: 'The first scale of every method: first position, each open string or the fourth finger before it.',
    source: TRADE,
  },
  {
    name: 'G major, two octaves, down',
    passage: 'tempo: 1/4 = 100\nkey: G major\n1/8 G5 F#5 E5 D5 C5 B4 A4 G4 F#4 E4 D4 C4 B3 A3 G3',
    accepted: ['I 2 1 {I 0 | II 4} II 3 2 1 {II 0 | III 4} III 3 2 1 {III 0 | IV 4} IV 3 2 1 0'],
    why: 'As up: first position throughout.',
    source: TRADE,
  },
  {
    name: 'D major, one octave, fast',
    passage: 'tempo: 1/4 = 132\nkey: D major\n1/16 D4 E4 F#4 G4 A4 B4 C#5 D5',
    accepted: ['III 0 1 2 3 {II 0 | III 4} II 1 2 3'],
    why: 'First position; nothing is gained by shifting.',
    source: TRADE,
  },
  {
    name: 'A major, two octaves, up',
    passage: 'tempo: 1/4 = 88\nkey: A major\n1/8 A3 B3 C#4 D4 E4 F#4 G#4 A4 B4 C#5 D5 E5 F#5 G#5 A5',
    accepted: ['IV 1 2 3 {III 0 | IV 4} III 1 2 3 {II 0 | III 4} II 1 2 3 {I 0 | II 4} I 1 2 3'],
    why: 'First position, third finger high on the two lower strings.',
    source: TRADE,
  },
  {
    name: 'B flat major, two octaves, up',
    passage: 'tempo: 1/4 = 88\nkey: Bb major\n1/8 Bb3 C4 D4 Eb4 F4 G4 A4 Bb4 C5 D5 Eb5 F5 G5 A5 Bb5',
    accepted: [
      'IV 2 3 {III 0 | IV 4} III 1 2 3 {II 0 | III 4} II 1 2 3 4 I 1 2 3 4',
      'IV 1 2 3 4 III 1 2 3 4 II 1 2 3 4 I 1 2 3',
    ],
    why: 'First position with a low first and fourth finger, or all of it under one hand in second position, as scale books give it.',
    source: TRADE,
  },
  {
    name: 'E flat major, one octave, up',
    passage: 'tempo: 1/4 = 88\nkey: Eb major\n1/8 Eb4 F4 G4 Ab4 Bb4 C5 D5 Eb5',
    accepted: ['III 1 2 3 4 II 1 2 3 4', 'IV 3 4 III 1 2 3 4 II 1 2', 'IV 4 III 1 2 3 4 II 1 2 3'],
    why: 'First position with a low fourth finger, third position starting on the third finger, or second starting on the fourth.',
    source: TRADE,
  },
  {
    name: 'D minor, harmonic, one octave, up',
    passage: 'tempo: 1/4 = 80\nkey: D minor\n1/8 D4 E4 F4 G4 A4 Bb4 C#5 D5',
    accepted: ['III 0 1 2 3 {II 0 | III 4} II 1 2 3'],
    why: 'The augmented second lies between a low first and a high second finger; nobody shifts for it.',
    source: TRADE,
  },
  {
    name: 'G minor, harmonic, two octaves, up',
    passage: 'tempo: 1/4 = 80\nkey: G minor\n1/8 G3 A3 Bb3 C4 D4 Eb4 F#4 G4 A4 Bb4 C5 D5 Eb5 F#5 G5',
    accepted: ['IV 0 1 2 3 {III 0 | IV 4} III 1 2 3 {II 0 | III 4} II 1 2 3 4 I 1 2'],
    why: 'First position; E flat is a low first finger on III and a low fourth on II.',
    source: TRADE,
  },
  {
    name: 'A minor, melodic, two octaves, up',
    passage: 'tempo: 1/4 = 96\nkey: A minor\n1/8 A3 B3 C4 D4 E4 F#4 G#4 A4 B4 C5 D5 E5 F#5 G#5 A5',
    accepted: ['IV 1 2 3 {III 0 | IV 4} III 1 2 3 {II 0 | III 4} II 1 2 3 {I 0 | II 4} I 1 2 3'],
    why: 'First position; only the thirds change their place.',
    source: TRADE,
  },
  {
    name: 'D flat major, one octave, up',
    passage: 'tempo: 1/4 = 72\nkey: Db major\n1/8 Db4 Eb4 F4 Gb4 Ab4 Bb4 C5 Db5',
    holds: [NO_OPEN_STRING, shiftsAtMost(1)],
    why: 'No open string belongs to the key; it lies under one hand, in low first, half, second or third position.',
    source: TRADE,
  },
  {
    name: 'G major, three octaves, up',
    passage: 'tempo: 1/4 = 96\nkey: G major\n1/8 G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5 A5 B5 C6 D6 E6 F#6 G6',
    accepted: ['IV 0 1 2 3 {III 0 | IV 4} III 1 2 3 {II 0 | III 4} ...'],
    holds: [RUNS_LIKE_A_SCALE, NO_STRING_AGAIN, shiftsAtMost(6)],
    why: 'Two strings in first position, then up by fresh first fingers, or second ones, on A and E.',
    source: TRADE,
  },
  {
    name: 'G major, three octaves, down',
    passage: 'tempo: 1/4 = 96\nkey: G major\n1/8 G6 F#6 E6 D6 C6 B5 A5 G5 F#5 E5 D5 C5 B4 A4 G4 F#4 E4 D4 C4 B3 A3 G3',
    holds: [RUNS_LIKE_A_SCALE, NO_STRING_AGAIN, shiftsAtMost(6)],
    why: 'Down by shifts from the first finger to a higher one; the first position reached, it stays there.',
    source: TRADE,
  },
  {
    name: 'A major, three octaves, up, fast',
    passage: 'tempo: 1/4 = 120\nkey: A major\n1/16 A3 B3 C#4 D4 E4 F#4 G#4 A4 B4 C#5 D5 E5 F#5 G#5 A5 B5 C#6 D6 E6 F#6 G#6 A6',
    holds: [RUNS_LIKE_A_SCALE, NO_STRING_AGAIN, shiftsAtMost(6)],
    why: 'Scale books differ in where they shift; none slides whole steps on one finger.',
    source: TRADE,
  },
  {
    name: 'B flat major, three octaves, up',
    passage: 'tempo: 1/4 = 96\nkey: Bb major\n1/8 Bb3 C4 D4 Eb4 F4 G4 A4 Bb4 C5 D5 Eb5 F5 G5 A5 Bb5 C6 D6 Eb6 F6 G6 A6 Bb6',
    holds: [RUNS_LIKE_A_SCALE, NO_STRING_AGAIN, shiftsAtMost(6)],
    why: 'From the second finger in first position, or the first in second, then up the E string group by group.',
    source: TRADE,
  },
  {
    name: 'A to A on the G string, up',
    passage: 'tempo: 1/4 = 72\nkey: A major\n1/8 A3[IV] B3[IV] C#4[IV] D4[IV] E4[IV] F#4[IV] G#4[IV] A4[IV]',
    holds: [allOn('IV'), RUNS_LIKE_A_SCALE, shiftsAtMost(3)],
    why: 'One octave on one string: two or three notes to a position, as 1 2 1 2 1 2 3 4 or 1 2 3 1 2 3 4 4.',
    source: TRADE,
  },
  {
    name: 'F sharp to F sharp on the E string, down',
    passage: 'tempo: 1/4 = 72\nkey: D major\n1/8 F#6[I] E6[I] D6[I] C#6[I] B5[I] A5[I] G5[I] F#5[I]',
    holds: [allOn('I'), RUNS_LIKE_A_SCALE, shiftsAtMost(3)],
    why: 'Down one string: the first finger hands over to a higher one.',
    source: TRADE,
  },
  {
    name: 'chromatic scale, D to D, up',
    passage: 'tempo: 1/4 = 80\n1/8 D4 D#4 E4 F4 F#4 G4 G#4 A4 A#4 B4 C5 C#5 D5',
    accepted: [
      `III 0 {1 1 2 2 3 4 | 1 1 2 2 3 3 | 1 1 2 3 3 4 | 1 2 1 2 3 4 | 1 2 3 1 2 3} {II 0 | III 4}
       II {1 1 2 2 3 | 1 1 2 3 4 | 1 2 1 2 3 | 1 2 3 1 2 | 1 1 2 3 3}`,
    ],
    why: 'Neighbouring half steps with one finger (1 1 2 2 3 4), or the newer 1 2 1 2 3 4 without slides.',
    source: TRADE,
  },
  {
    name: 'chromatic scale, D to D, down',
    passage: 'tempo: 1/4 = 80\n1/8 D5 Db5 C5 B4 Bb4 A4 Ab4 G4 Gb4 F4 E4 Eb4 D4',
    accepted: [
      `II {3 2 2 1 1 | 3 3 2 1 1 | 4 3 2 1 1 | 3 2 1 2 1 | 2 1 3 2 1} {II 0 | III 4}
       III {4 3 2 2 1 1 | 4 3 3 2 1 1 | 3 3 2 2 1 1 | 4 3 2 1 2 1 | 3 2 1 3 2 1} 0`,
    ],
    why: 'As up. Coming down, no finger climbs over another.',
    source: TRADE,
  },
  {
    name: 'chromatic run on the E string, fast',
    passage: 'tempo: 1/4 = 100\n1/16 slur(A5 A#5 B5 C6 C#6 D6 D#6 E6)',
    holds: [allOn('I'), RUNS_LIKE_A_SCALE],
    why: 'On one string by 1 2 1 2, 1 2 3 1 2 3, or each finger twice.',
    source: TRADE,
  },
];
