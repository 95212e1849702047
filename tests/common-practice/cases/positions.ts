import { type Case, TRADE } from '../case';
import { allOn, inPositions, NO_FINGER_TWICE, NO_OPEN_STRING, shiftsAtMost } from '../properties';

/** Half position, third position, and high on the E string. */
export const POSITIONS: readonly Case[] = [
  {
    name: 'half position on the A string',
    passage: 'tempo: 1/4 = 96\nkey: B major\n1/16 A#4 B4 C#5 B4 A#4 B4 C#5 B4',
    accepted: ['II 1 2 3 2 1 2 3 2', 'III 2 3 4 3 2 3 4 3', 'III 1 2 3 2 1 2 3 2'],
    why: 'Half position gives each note its own finger; in third or fourth position the string below does too.',
    source: TRADE,
  },
  {
    name: 'half position on the G string',
    passage: 'tempo: 1/4 = 96\nkey: A minor\n1/16 slur(G#3 A3 B3 A3) slur(G#3 A3 B3 A3)',
    accepted: ['IV 1 2 3 2 1 2 3 2'],
    why: 'There is no string below: one finger sliding to and fro is the only other way, and nobody takes it at speed.',
    source: TRADE,
  },
  {
    name: 'half position, leading notes on two strings',
    passage: 'tempo: 1/4 = 88\nkey: B minor\n1/16 A#4 B4 F#5 B4 A#4 B4 C#5 B4',
    accepted: ['II 1 2 I 2 II 2 1 2 3 2', 'II 1 2 I 2 II 2 1 2 4 2', 'III 2 3 II 3 III 3 2 3 4 3', 'III 1 2 II 2 III 2 1 2 3 2'],
    why: 'Half position, second finger over the fifth; or higher, the same on D and A in third or fourth.',
    source: TRADE,
  },
  {
    name: 'third position once it is asked for',
    passage:
      'tempo: 1/4 = 84\nkey: Bb major\n1/8 slur(G4[3rd] A4 Bb4 C5) slur(D5 Eb5 F5 G5) slur(F5 Eb5 D5 C5) slur(Bb4 A4) 1/4 G4',
    accepted: ['III 1 2 3 4 II 1 2 3 4 3 2 1 III 4 3 2 1'],
    why: 'All of it lies in third position; there is no reason to leave it.',
    source: TRADE,
  },
  {
    name: 'chord figure in third position',
    passage: 'tempo: 1/4 = 100\nkey: D major\n1/16 D5 F#5 A5 D6 A5 F#5 D5 F#5',
    accepted: ['II 1 3 I 1 4 1 II 3 1 3'],
    why: 'From D to D the chord lies in third position.',
    source: TRADE,
  },
  {
    name: 'scale figure in third position',
    passage: 'tempo: 1/4 = 100\nkey: D major\n1/16 D5 E5 F#5 G5 A5 B5 C#6 D6 C#6 B5 A5 G5 F#5 E5 D5 E5',
    accepted: ['II 1 2 3 4 I 1 2 3 4 3 2 1 II 4 3 2 1 2'],
    why: 'The octave from D lies under one hand in third position.',
    source: TRADE,
  },
  {
    name: 'high on the E string',
    passage: 'tempo: 1/4 = 88\nkey: G major\n1/16 E6 F#6 G6 A6 G6 F#6 E6 F#6',
    accepted: ['I 1 2 3 4 3 2 1 2'],
    why: 'Seventh position, one finger to a note.',
    source: TRADE,
  },
  {
    name: 'very high on the E string',
    passage: 'tempo: 1/4 = 72\nkey: A major\n1/8 A6 B6 C#7 B6 A6 B6 C#7 B6',
    accepted: ['I 1 2 3 2 1 2 3 2', 'I 2 3 4 3 2 3 4 3'],
    why: 'One hand; the fingers lie close, and many spare the fourth.',
    source: TRADE,
  },
  {
    name: 'high arpeggio on the E string',
    passage: 'tempo: 1/4 = 72\nkey: A major\n1/8 A5 C#6 E6 A6 E6 C#6 A5',
    holds: [allOn('I'), NO_FINGER_TWICE, shiftsAtMost(4)],
    why: 'Above third position there is no other string to go to; the hand shifts once or twice each way.',
    source: TRADE,
  },
  {
    name: 'scale from third position up',
    passage: 'tempo: 1/4 = 92\nkey: C major\n1/16 A5 B5 C6 D6 E6 F6 G6 F6 E6 D6 C6 B5 A5 B5 C6 A5',
    holds: [allOn('I'), NO_FINGER_TWICE, shiftsAtMost(4)],
    why: 'On E, by one shift or two each way.',
    source: TRADE,
  },
  {
    name: 'flat key without open strings',
    passage: 'tempo: 1/4 = 84\nkey: Ab major\n1/8 Ab4 Bb4 C5 Db5 Eb5 F5 G5 Ab5',
    accepted: ['III 4 II 1 2 3 4 I 1 2 3', 'III 3 4 II 1 2 3 4 I 1 2', 'III 2 3 4 II 1 2 3 4 I 1', 'III 1 2 3 4 II 1 2 3 4'],
    holds: [NO_OPEN_STRING],
    why: 'One hand, wherever it stands: low first, second, third or high third position.',
    source: TRADE,
  },
  {
    name: 'sharp key in second position',
    passage: 'tempo: 1/4 = 84\nkey: B major\n1/8 B3 C#4 D#4 E4 F#4 G#4 A#4 B4',
    accepted: [
      'IV 1 2 3 4 III 1 2 3 4',
      'IV 2 3 4 III 1 2 3 {III 4 | II 1} II 1|2',
      'IV 2 3 4 III 1 2 3 4 4',
      'IV 3 4 III 1 2 3 4 II 1 2',
    ],
    why: 'Second position on G and D; half position; or first, A sharp with a high fourth finger or a low first.',
    source: TRADE,
  },
  {
    name: 'everyday first position',
    passage: 'tempo: 1/4 = 108\nkey: D major\n1/8 A4 B4 C#5 D5 1/4 F#5 1/8 E5 D5 C#5 B4 1/2 A4',
    accepted: ['{II 0 | III 4} II 1 2 3 I 1 {I 0 | II 4} II 3 2 1 {II 0 | III 4}'],
    holds: [inPositions(1)],
    why: 'A plain tune at a plain tempo stays where every player starts.',
    source: TRADE,
  },
];
