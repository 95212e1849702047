import { later } from '../l10n/translate';
import type { Offer } from './completion';

/** What stands at the start of a line, whole passages first. Each reads without a problem as it stands. */
export const SNIPPETS: readonly Offer[] = [
  {
    label: 'new passage',
    kind: 'snippet',
    detail: later('A passage with its tempo and meter.'),
    snippet: true,
    text: [
      `passage: \${1:First light}`,
      `tempo: \${2:1/4 = 72}`,
      `meter: \${3:4/4}`,
      '',
      `1/4 \${4:D5 A5 D6o F#6o} ||`,
      '$0',
    ].join('\n'),
  },
  {
    label: 'new scale',
    kind: 'snippet',
    detail: later('A scale of two octaves, up and down.'),
    snippet: true,
    text: [
      `passage: \${1:Scale in A major}`,
      `tempo: \${2:1/4 = 60}`,
      'meter: 4/4',
      '1/8 A3 B3 C#4 D4 E4 F#4 G#4 A4 | B4 C#5 D5 E5 F#5 G#5 A5 B5 |',
      'A5 G#5 F#5 E5 D5 C#5 B4 A4 | G#4 F#4 E4 D4 C#4 B3 1/4 A3 ||',
      '$0',
    ].join('\n'),
  },
  {
    label: 'new arpeggio',
    kind: 'snippet',
    detail: later('An arpeggio of two octaves in slurs of three.'),
    snippet: true,
    text: [
      `passage: \${1:Arpeggio in A major}`,
      `tempo: \${2:1/4 = 60}`,
      'meter: 3/4',
      '1/4 slur(A3 C#4 E4) | slur(A4 C#5 E5) | slur(A5 E5 C#5) | slur(A4 E4 C#4) | 3/4 A3 ||',
      '$0',
    ].join('\n'),
  },
  {
    label: 'new study',
    kind: 'snippet',
    detail: later('A study of four bars that mixes stopped notes and harmonics.'),
    snippet: true,
    text: [
      `passage: \${1:Study}`,
      `tempo: \${2:1/4 = 66}`,
      'meter: 4/4',
      `> \${3:Full bows. Let each harmonic ring.}`,
      '1/4 D5 F#5 A5 D6o | 1/8 slur(E5 F#5 G5 A5) 1/2 A5o |',
      '1/4 A5o F#5 D5 A4 | 1/2 D5 D6o ||',
      '$0',
    ].join('\n'),
  },
  {
    label: '> ',
    kind: 'snippet',
    detail: later('An instruction, printed over the next bar.'),
    text: `> \${1:Full bows.}`,
    snippet: true,
  },
];

/** Notes that are more than a pitch. */
export const NOTE_SNIPPETS: readonly Offer[] = [
  {
    label: 'artificial harmonic',
    kind: 'snippet',
    detail: later('A stopped note and the one lightly touched above it: E5<>A5.'),
    text: `\${1:E5}<>\${2:A5}$0`,
    snippet: true,
  },
  {
    label: 'natural harmonic',
    kind: 'snippet',
    detail: later('A lone diamond, touched where the note would be stopped: <>A4.'),
    text: `<>\${1:A4}$0`,
    snippet: true,
  },
  {
    label: 'double stop',
    kind: 'snippet',
    detail: later('Two notes at once: E6o+B6o.'),
    text: `\${1:E6o}+\${2:B6o}$0`,
    snippet: true,
  },
];
