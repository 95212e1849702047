import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Problem } from '../../server/rules/rule';
import { edited } from '../support/caret';
import { reading } from '../support/reading';
import { runs } from '../support/runs';

const NAMES = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
const HINTS = 'I II III IV 1 2 3 4 1-4 1-3 open stopped natural artificial fourth fifth third minor-third'
  .split(' ')
  .concat('at 1/3', 'at 1/4', '3rd', '7th');

const pitch = (semitone: number) => `${NAMES[semitone % 12]}${Math.floor(semitone / 12) - 1}`;
const semitones = fc.integer({ min: 52, max: 105 });
const form = fc.oneof(
  semitones.map(pitch),
  semitones.map((at) => `${pitch(at)}o`),
  semitones.map((at) => `<>${pitch(at)}`),
  fc.tuple(semitones, fc.constantFrom(3, 4, 5, 7, 9, 12)).map(([at, apart]) => `${pitch(at)}<>${pitch(at + apart)}`),
);
const hints = fc.option(fc.subarray(HINTS, { minLength: 1, maxLength: 2 }), { freq: 2, nil: undefined });
const note = fc.tuple(form, hints).map(([text, words]) => (words ? `${text} [${words.join(' ')}]` : text));
const event = fc
  .tuple(fc.constantFrom('1/4', '1/8', '1/16'), note, fc.option(note, { nil: undefined }))
  .map(([duration, one, two]) => `${duration} ${one}${two ? `+${two}` : ''}`);
const passage = fc
  .tuple(fc.integer({ min: 40, max: 160 }), fc.constantFrom('', 'ff '), fc.array(event, { minLength: 1, maxLength: 4 }))
  .map(([bpm, dynamic, events]) => `tempo: 1/4 = ${bpm}\n${dynamic}${events.join(' ')}\n`);

const errors = (problems: readonly Problem[]) => problems.filter(({ severity }) => severity === 'error').length;

it('no fix of any passage makes an error that was not there', () => {
  fc.assert(
    fc.property(passage, (text) => {
      const { problems } = reading(text);
      for (const { code, fixes } of problems)
        for (const { title, edits } of fixes) {
          const after = edited(text, edits);
          expect(errors(reading(after).problems), `${code}: “${title}” makes ${after}`).toBeLessThanOrEqual(errors(problems));
        }
    }),
    runs(800, 1885),
  );
});
