import { type Case, TRADE } from '../case';
import { alike, allOn, fingersAlike, inPositions, REPEATED_NOTES_ALIKE, shiftsOnlyOnto } from '../properties';

/** Sequences, repeated figures, bariolage, and figures as studies and preludes have them. All music here is invented. */
export const FIGURES: readonly Case[] = [
  {
    name: 'broken thirds in first position',
    passage: 'tempo: 1/4 = 96\nkey: D major\n1/8 D4 F#4 E4 G4 F#4 A4 G4 B4 A4 C#5 B4 D5',
    accepted: ['III 0 2 1 3 2 {III 4 | II 0} III 3 II 1 {II 0 | III 4} II 2 1 3'],
    why: 'First position throughout.',
    source: TRADE,
  },
  {
    name: 'sequence climbing the E string',
    passage: 'tempo: 1/4 = 88\nkey: D major\n1/16 A5 B5 C#6 D6 B5 C#6 D6 E6 C#6 D6 E6 F#6 D6 E6 F#6 G6',
    holds: [allOn('I'), fingersAlike(4, 1, 5, 9, 13)],
    why: 'Each group 1 2 3 4, the hand going up with the group: a sequence is fingered as one.',
    source: TRADE,
  },
  {
    name: 'sequence coming down',
    passage: 'tempo: 1/4 = 88\nkey: G major\n1/16 B5 A5 G5 F#5 A5 G5 F#5 E5 G5 F#5 E5 D5 F#5 E5 D5 C5',
    accepted: [
      'I 4 3 2 1 3 2 1 {I 0 | II 4} I 2 1 {I 0 | II 4} II 3 I 1 {I 0 | II 4} II 3 2',
      'I 2 1 II 4 3 I 1 II 4 3 2 4 3 2 1 3 2 1 III 4',
    ],
    why: 'It all lies in first position, and in third.',
    source: TRADE,
  },
  {
    name: 'one figure four times',
    passage: 'tempo: 1/4 = 104\nkey: D major\n1/16 D5 E5 F#5 E5 D5 E5 F#5 E5 D5 E5 F#5 E5 D5 E5 F#5 E5',
    holds: [alike(4, 1, 5, 9, 13)],
    why: 'What is written alike is played alike, or the ear hears the difference.',
    source: TRADE,
  },
  {
    name: 'one figure, something else, the figure again',
    passage:
      'tempo: 1/4 = 92\nmeter: 2/4\nkey: G major\n1/16 G4 B4 A4 C5 B4 D5 C5 A4 | 1/8 G5 F#5 E5 D5 | 1/16 G4 B4 A4 C5 B4 D5 C5 A4 ||',
    holds: [alike(8, 1, 13)],
    why: 'A bar that comes back is fingered as it was.',
    source: TRADE,
  },
  {
    name: 'the same shape on the next string',
    passage: 'tempo: 1/4 = 96\n1/16 E4 F#4 G4 F#4 B4 C#5 D5 C#5 E4 F#4 G4 F#4 B4 C#5 D5 C#5',
    accepted: ['III 1 2 3 2 II 1 2 3 2 III 1 2 3 2 II 1 2 3 2'],
    why: 'A fifth higher is the same fingers, one string over.',
    source: TRADE,
  },
  {
    name: 'repeated notes',
    passage: 'tempo: 1/4 = 100\nkey: A minor\n1/16 E5 E5 E5 E5 D5 D5 D5 D5 C5 C5 C5 C5 B4 B4 B4 B4',
    holds: [REPEATED_NOTES_ALIKE],
    why: 'A new finger on every repetition is a special effect that someone would have to ask for.',
    source: TRADE,
  },
  {
    name: 'bariolage on open E',
    passage: 'tempo: 1/4 = 108\nkey: A major\n1/16 C#5 E5 D5 E5 C#5 E5 B4 E5 C#5 E5 D5 E5 C#5 E5 B4 E5',
    accepted: ['II 2 I 0 II 3 I 0 II 2 I 0 II 1 I 0 II 2 I 0 II 3 I 0 II 2 I 0 II 1 I 0'],
    why: 'The pedal is the open string, the moving voice keeps to the string below.',
    source: TRADE,
  },
  {
    name: 'bariolage on open A',
    passage: 'tempo: 1/4 = 108\nkey: D major\n1/16 F#4 A4 G4 A4 E4 A4 F#4 A4 F#4 A4 G4 A4 E4 A4 F#4 A4',
    accepted: ['III 2 II 0 III 3 II 0 III 1 II 0 III 2 II 0 III 2 II 0 III 3 II 0 III 1 II 0 III 2 II 0'],
    why: 'As on E.',
    source: TRADE,
  },
  {
    name: 'bariolage through the unison',
    passage: 'tempo: 1/4 = 108\nkey: A major\n1/16 D5 E5 C#5 E5 D5 E5 E5 E5 D5 E5 C#5 E5 B4 E5 C#5 E5',
    accepted: ['II 3 I 0 II 2 I 0 II 3 I 0 {II 4 | I 0} I 0 II 3 I 0 II 2 I 0 II 1 I 0 II 2 I 0'],
    why: 'Where the voice meets the pedal it takes the fourth finger beside the open string; at speed some stay on the open string.',
    source: TRADE,
  },
  {
    name: 'prelude figure in E major',
    passage: 'tempo: 1/4 = 104\nmeter: 4/4\nkey: E major\n1/16 E5 G#5 B5 G#5 E5 B4 G#4 B4 E5 F#5 G#5 A5 B5 A5 G#5 F#5 ||',
    accepted: ['{I 0 | II 4} I 2 4 2 {I 0 | II 4} II 1 III 3 II 1 {I 0 | II 4} I 1 2 3 4 3 2 1'],
    why: 'Baroque passage work stays in first position, the fourth finger on B.',
    source: TRADE,
  },
  {
    name: 'prelude figure in D major',
    passage: 'tempo: 1/4 = 96\nmeter: 4/4\nkey: D major\n1/16 D5 F#5 A5 F#5 D5 A4 F#4 A4 D5 E5 F#5 G5 A5 G5 F#5 E5 ||',
    accepted: ['II 3 I 1 3 1 II 3 {II 0 | III 4} III 2 {II 0 | III 4} II 3 {I 0 | II 4} I 1 2 3 2 1 {I 0 | II 4}'],
    why: 'First position.',
    source: TRADE,
  },
  {
    name: 'prelude figure in G major',
    passage: 'tempo: 1/4 = 92\nmeter: 4/4\nkey: G major\n1/16 G4 B4 D5 B4 G4 D4 B3 D4 G3 A3 B3 C4 D4 E4 F#4 G4 ||',
    accepted: ['III 3 II 1 3 1 III 3 {III 0 | IV 4} IV 2 {III 0 | IV 4} IV 0 1 2 3 {III 0 | IV 4} III 1 2 3'],
    why: 'First position.',
    source: TRADE,
  },
  {
    name: 'perpetual sixteenths in C major',
    passage:
      'tempo: 1/4 = 92\nmeter: 4/4\nkey: C major\n1/16 C5 E5 D5 F5 E5 G5 F5 D5 E5 C5 D5 B4 C5 A4 B4 G4 | A4 C5 B4 D5 C5 E5 D5 B4 C5 A4 B4 G4 A4 F4 G4 E4 ||',
    holds: [inPositions(0, 1)],
    why: 'A détaché study for beginners of the bow: first position, fourth finger or open string as the crossings fall.',
    source: TRADE,
  },
  {
    name: 'finger pattern on one string',
    passage: 'tempo: 1/4 = 80\nmeter: 2/4\n1/16 B4 C5 D5 C5 B4 D5 C5 D5 | B4 D5 C5 B4 D5 C5 B4 C5 ||',
    accepted: ['II 1 2 3 2 1 3 2 3 1 3 2 1 3 2 1 2'],
    why: 'A daily exercise for three fingers in first position.',
    source: TRADE,
  },
  {
    name: 'finger pattern with the fourth finger',
    passage: 'tempo: 1/4 = 80\nmeter: 2/4\n1/16 slur(B4 C#5 D5 E5 D5 E5 C#5 E5) | slur(B4 E5 D5 C#5 E5 D5 C#5 B4) ||',
    accepted: ['II 1 2 3 4 3 4 2 4 1 4 3 2 4 3 2 1'],
    why: 'Slurred on one string, it can only be the fourth finger: the open E would break the line at every turn.',
    source: TRADE,
  },
  {
    name: 'shift in the rest',
    passage: 'tempo: 1/4 = 88\nmeter: 4/4\nkey: C major\n1/8 G4 A4 B4 C5 rest 1/8 E6 F6 G6 | F6 E6 F6 D6 1/2 E6 ||',
    holds: [shiftsOnlyOnto(5)],
    why: 'The rest gives the time to go up; before it and after it the hand stays.',
    source: TRADE,
  },
  {
    name: 'shift while the open string sounds',
    passage: 'tempo: 1/4 = 100\nkey: C major\n1/16 G5 F5 E5 E6 F6 G6 F6 E6',
    accepted: ['{I 2 1 | II 4 3 | II 3 2} I 0 {1 2 3 2 1 | 2 3 4 3 2}'],
    why: 'The open E covers the shift.',
    source: TRADE,
  },
];
