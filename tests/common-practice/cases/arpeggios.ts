import { type Case, TRADE } from '../case';
import { NO_FINGER_TWICE, NO_STRING_AGAIN, shiftsAtMost } from '../properties';

/** Broken chords. */
export const ARPEGGIOS: readonly Case[] = [
  {
    name: 'G major arpeggio, two octaves',
    passage: 'tempo: 1/4 = 100\nkey: G major\n1/8 G3 B3 D4 G4 B4 D5 G5 D5 B4 G4 D4 B3 G3',
    accepted: ['IV 0 2 {III 0 | IV 4} III 3 II 1 3 I 2 II 3 1 III 3 {III 0 | IV 4} IV 2 0'],
    why: 'First position, open D or the fourth finger.',
    source: TRADE,
  },
  {
    name: 'D major arpeggio, fast',
    passage: 'tempo: 1/4 = 126\nkey: D major\n1/16 D4 F#4 A4 D5 F#5 A5 F#5 D5 A4 F#4 D4',
    accepted: ['III 0 2 {II 0 | III 4} II 3 I 1 3 1 II 3 {II 0 | III 4} III 2 0'],
    why: 'First position.',
    source: TRADE,
  },
  {
    name: 'E minor arpeggio',
    passage: 'tempo: 1/4 = 92\nkey: E minor\n1/8 E4 G4 B4 E5 G5 B5 G5 E5 B4 G4 E4',
    accepted: ['III 1 3 II 1 {I 0 | II 4} I 2 4 2 {I 0 | II 4} II 1 III 3 1'],
    why: 'First position, the fourth finger on B.',
    source: TRADE,
  },
  {
    name: 'B flat major arpeggio, two octaves',
    passage: 'tempo: 1/4 = 92\nkey: Bb major\n1/8 Bb3 D4 F4 Bb4 D5 F5 Bb5',
    accepted: ['IV 2 {III 0 | IV 4} III 2 II 1 3 I 1 4', 'IV 1 3 III 1 4 II 2 4 I 3'],
    why: 'First position, or the whole chord under one hand in second.',
    source: TRADE,
  },
  {
    name: 'dominant seventh on G',
    passage: 'tempo: 1/4 = 92\nkey: C major\n1/8 G3 B3 D4 F4 G4 B4 D5 F5 G5',
    accepted: ['IV 0 2 {III 0 | IV 4} III 2 3 II 1 3 I 1 2'],
    why: 'First position, low second finger on F.',
    source: TRADE,
  },
  {
    name: 'G major arpeggio, three octaves',
    passage: 'tempo: 1/4 = 84\nkey: G major\n1/8 G3 B3 D4 G4 B4 D5 G5 B5 D6 G6',
    holds: [NO_STRING_AGAIN, NO_FINGER_TWICE, shiftsAtMost(3)],
    why: 'Wherever it shifts, no finger leaps a third or fourth on its own string, and the hand goes up at most three times.',
    source: TRADE,
  },
  {
    name: 'four-string broken chord',
    passage: 'tempo: 1/4 = 80\nkey: A major\n1/16 A3 E4 C#5 A5 C#5 E4 A3',
    accepted: ['IV 1 III 1 II 2 I 3 II 2 III 1 IV 1'],
    why: 'The chord stays under the hand in first position, the first finger over two strings.',
    source: TRADE,
  },
  {
    name: 'broken chord over three open strings',
    passage: 'tempo: 1/4 = 100\nkey: G major\n1/16 G3 D4 B4 D4 G3 D4 B4 D4',
    accepted: ['IV 0 III 0 II 1 III 0 IV 0 III 0 II 1 III 0'],
    why: 'Open strings ring on; nothing else is as easy.',
    source: TRADE,
  },
  {
    name: 'fifths to and fro',
    passage: 'tempo: 1/4 = 108\nkey: B minor\n1/16 B4 F#5 B4 F#5 B4 F#5 B4 F#5',
    accepted: ['II 1 I 1 II 1 I 1 II 1 I 1 II 1 I 1'],
    why: 'One finger lies over both strings.',
    source: TRADE,
  },
];
