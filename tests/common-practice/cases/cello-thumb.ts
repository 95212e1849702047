import { type Case, TRADE } from '../case';

/** Thumb position on the cello. */
export const CELLO_THUMB: readonly Case[] = [
  {
    name: 'cello: D4[II T] E4 F#4 G4 A4 B4 C#5 … (9 notes)',
    passage: 'instrument: cello\ntempo: 1/4 = 80\n1/8 D4[II T] E4 F#4 G4 A4 B4 C#5 D5',
    accepted: ['II T 1 2 3 I T 1 2 3'],
    why: 'The thumb as a nut across two strings at the half: the scale of D lies under T 1 2 3 twice.',
    source: TRADE,
  },
  {
    name: 'cello: D5[I 3] C#5 B4 A4[T] G4 F#4 E4 … (9 notes)',
    passage: 'instrument: cello\ntempo: 1/4 = 80\n1/8 D5[I 3] C#5 B4 A4[T] G4 F#4 E4 D4',
    accepted: ['I 3 2 1 T II 3 2 1 T'],
    why: 'The same down.',
    source: TRADE,
  },
  {
    name: 'cello: D4[II T] E4 F4 G4 A4 Bb4 C5 … (9 notes)',
    passage: 'instrument: cello\ntempo: 1/4 = 80\n1/8 D4[II T] E4 F4 G4 A4 Bb4 C5 D5',
    accepted: ['II T 1 2 3 I T 1 2 3'],
    why: 'The frame of the minor: second finger low, then first and second low.',
    source: TRADE,
  },
  {
    name: 'cello: D4[II T] F#4 E4 G4 F#4 A4 G4 … (13 notes)',
    passage: 'instrument: cello\ntempo: 1/4 = 80\n1/8 D4[II T] F#4 E4 G4 F#4 A4 G4 B4 A4 C#5 B4 D5',
    accepted: ['II T 2 1 3 2 I T II 3 I 1 T 2 1 3'],
    why: 'Broken thirds under the resting thumb.',
    source: TRADE,
  },
  {
    name: 'cello: D4[II T] F#4 A4 D5 A4 F#4',
    passage: 'instrument: cello\ntempo: 1/4 = 80\n1/8 D4[II T] F#4 A4 D5 A4 F#4',
    accepted: ['II T 2 I T 3 T II 2'],
    why: 'Arpeggio under the resting thumb.',
    source: TRADE,
  },
  {
    name: 'cello: A4[I T] B4 C#5 D5 C#5 B4 A4',
    passage: 'instrument: cello\ntempo: 1/4 = 80\n1/8 A4[I T] B4 C#5 D5 C#5 B4 A4',
    accepted: ['I T 1 2 3 2 1 T'],
    why: 'One frame, T 1 2 3.',
    source: TRADE,
  },
  {
    name: 'cello: A4 B4 C#5 D5 C#5 B4 A4 B4 … (10 notes)',
    passage: 'instrument: cello\ntempo: 1/4 = 80\n1/16 A4 B4 C#5 D5 C#5 B4 A4 B4 C#5 D5',
    accepted: ['I T 1 2 3 2 1 T 1 2 3'],
    why: 'Fast and a fourth wide: one frame with the thumb and no shift.',
    source: TRADE,
  },
  {
    name: 'cello: D5 E5 F#5 G5',
    passage: 'instrument: cello\ntempo: 1/4 = 66\n1/4 D5 E5 F#5 G5',
    accepted: ['I T 1 2 3', 'I 1 2 1 2', 'I 1 1 2 3'],
    why: 'Thumb frame, or one shift of the first finger; no fourth finger.',
    source: TRADE,
  },
  {
    name: 'cello: D4[II T] A4 E4 B4 F#4 C#5 G4 … (9 notes)',
    passage: 'instrument: cello\ntempo: 1/4 = 80\n1/8 D4[II T] A4 E4 B4 F#4 C#5 G4 D5',
    accepted: ['II T I T II 1 I 1 II 2 I 2 II 3 I 3'],
    why: 'Broken fifths: each finger over both strings.',
    source: TRADE,
  },
];
