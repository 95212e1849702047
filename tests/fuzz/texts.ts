import fc from 'fast-check';
import { MANNERS, TOUCH_INTERVALS } from '../../grammar/hint-names';
import { pitchName, spell } from '../../server/music/pitch';
import { anyText, file } from '../grammar/generate';

/** Texts for properties of the whole path from text to problems: passages that can mostly be played, and texts that nobody would write. */

const pick = <T>(...all: readonly T[]) => fc.constantFrom(...all);
const words = (parts: fc.Arbitrary<string>, most: number, least = 1) =>
  fc.array(parts, { minLength: least, maxLength: most }).map((all) => all.join(' '));

const pitch = (low: number, high: number) =>
  fc.tuple(fc.integer({ min: low, max: high }), fc.boolean()).map(([key, flats]) => pitchName(spell(key, flats)));
const stopped = pitch(52, 93);
const harmonic = fc.oneof(
  pitch(67, 105).map((sounding) => `${sounding}o`),
  pick('<>D4', '<>A4', '<>G4 [IV]', '<>D5', '<>A5', '<>F#4', '<>B4 [III]', '<>C5'),
  pick('D5<>G5', 'E5<>A5', 'F5<>Bb5', 'G4<>D5', 'A4<>C#5', 'B4<>E5 = B6', 'E5<>A5 = E7', 'A4<>D5 = A5'),
);
const hint = fc.oneof(
  pick('I', 'II', 'III', 'IV', '1', '2', '3', '4', '0', '1-4', '1-3', 'T', 'at 1/3', 'at 2/5', '1st', '3rd', '5th'),
  pick(...MANNERS, ...TOUCH_INTERVALS),
);
const hints = fc.uniqueArray(hint, { minLength: 1, maxLength: 2 }).map((all) => ` [${all.join(' ')}]`);
const note = fc
  .tuple(fc.oneof({ weight: 3, arbitrary: stopped }, { weight: 2, arbitrary: harmonic }), fc.option(hints, { freq: 5 }))
  .map(([form, some]) => (form.includes('[') ? form : form + (some ?? '')));
const doubleStop = fc
  .tuple(fc.integer({ min: 57, max: 80 }), pick(3, 4, 5, 7, 8, 9, 12), pick('', '', 'o'))
  .map(([low, up, mark]) => [low, low + up].map((key) => pitchName(spell(mark ? key + 24 : key)) + mark).join('+'));
const event = fc.oneof(
  { weight: 7, arbitrary: note },
  { weight: 2, arbitrary: doubleStop },
  {
    weight: 1,
    arbitrary: pick('rest', 'A4_ A4', 'slide D6o', 'D5_ D5+A4', 'mf', 'pp', '|', 'wave', 'wave up M2', 'wave backwards'),
  },
);
const beat = fc.tuple(pick('1/4', '1/8', '1/16', '1/12', '1/8.', '1/2'), words(event, 5)).map((parts) => parts.join(' '));
const group = fc.oneof(
  { weight: 4, arbitrary: beat },
  { weight: 1, arbitrary: words(event, 4).map((inside) => `slur(${inside})`) },
);
const comment = pick('', '', '', '  // lamp room', '  // check: lone-third off', '  // check: same-spot warning');
const music = fc.tuple(words(group, 3), pick('', ' |', ' ||'), comment).map((parts) => parts.join(''));
const setting = pick(
  ...['tempo: 1/4 = 60', 'tempo: 1/4 = 168', 'meter: 3/4', 'meter: 4/4', 'key: D major', 'harmonics: allowed', 'harmonics: all'],
  ...[
    'hand: small',
    'hand: large',
    'temperament: pythagorean',
    'pitch: A4 = 442',
    'tuning: equal',
    'temp: 1/4 = 60',
    'hand: smal',
  ],
);
const head = pick(
  '',
  'instrument: violin\n',
  'instrument: viola 16in\n',
  'instrument: cello\n',
  'instrument: violin 3/4\n',
  'hand: small\n',
);
const motif = pick('motif wave = 1/16 D5 E5 F#5 A5', 'motif wave = D5 E5o', 'motif wave = wave', 'motif tide = 1/8 G4');
const line = fc.oneof(
  { weight: 6, arbitrary: music },
  { weight: 2, arbitrary: setting },
  { weight: 1, arbitrary: motif },
  { weight: 1, arbitrary: pick('passage: Mole head', 'passage: Lighthouse study', '> Full bows.', '', '// sea room') },
);

/** Files as a player or an editor would write them, slips and all. */
export const written: fc.Arbitrary<string> = fc
  .tuple(head, fc.array(line, { minLength: 1, maxLength: 6 }), pick('\n', '\n', '\r\n'))
  .map(([top, lines, end]) => (top + lines.join('\n')).replaceAll('\n', end));

/** Files of a few short lines, where every place is looked at. */
export const short: fc.Arbitrary<string> = fc
  .tuple(head, fc.array(line, { minLength: 1, maxLength: 2 }))
  .map(([top, lines]) => top + lines.join('\n'));

/** Any text at all: written as it should be, nearly so, or not at all. */
export const hostile: fc.Arbitrary<string> = fc.oneof(written, anyText, file);

/** A change of a text at any place of it: something typed, taken out, or put in from elsewhere. */
export const change: fc.Arbitrary<(text: string) => string> = fc
  .tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(12), fc.oneof(event, pick('', '\n', ' ', '[', 'o', '/'), anyText))
  .map(([where, taken, put]) => (text: string) => {
    const at = Math.floor(where * text.length);
    return text.slice(0, at) + put + text.slice(at + taken);
  });
