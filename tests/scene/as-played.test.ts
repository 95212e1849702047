import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ScenePassage } from '../../server/protocol/scene';
import { asPlayed } from '../../server/scene/sound/as-played';
import { timelineOf } from '../../server/scene/sound/timeline';
import { passageOf } from './solved';

/** What is heard, with times short of the last bits that come of adding up in another order. */
function heard(passage: ScenePassage) {
  const near = (seconds: number) => Number(seconds.toFixed(9));
  const { soundings, clicks, seconds } = timelineOf(passage);
  return {
    notes: soundings.map(({ event, note, at, seconds: long }) => ({
      pitch: passage.events[event]?.notes[note]?.sounding,
      at: near(at),
      seconds: near(long),
    })),
    clicks: clicks.map(({ at, strong }) => ({ at: near(at), strong })),
    seconds: near(seconds),
  };
}

describe('a passage as it is played', () => {
  test.each([
    ['between two signs', '1/4 C5 |: D5 | E5 :| F5', [0, 1, 2, 1, 2, 3]],
    ['from the beginning', '1/4 C5 | D5 :| E5', [0, 1, 0, 1, 2]],
    ['one repeat after another', '|: 1/4 C5 :| |: D5 :| E5', [0, 0, 1, 1, 2]],
    ['from the end of the repeat before', '1/4 C5 :| D5 | E5 :|', [0, 0, 1, 2, 1, 2]],
    ['from the last sign, where two stand open', '|: 1/4 C5 |: D5 :| E5', [0, 1, 1, 2]],
    ['a sign that nothing closes', '1/4 C5 |: D5 | E5', [0, 1, 2]],
  ])('%s', (_, text, written) => {
    expect(asPlayed(passageOf(text)).written).toEqual(written);
  });

  test('without repeats it is the passage itself', () => {
    const passage = passageOf('1/4 C5 | D5 ||');
    expect(asPlayed(passage)).toEqual({ passage, written: [0, 1] });
  });

  // Whoever writes the repeats out hears the same.
  test.each([
    ['rests at both ends', '|: 1/4 rest D5 rest :| rest E5', '1/4 rest D5 rest | rest D5 rest | rest E5'],
    [
      'an upbeat',
      'meter: 3/4\n1/4 C5 | D5 E5 F5 | 1/2 G5 :|',
      'meter: 3/4\n1/4 C5 | D5 E5 F5 | 1/2 G5 1/4 C5 | D5 E5 F5 | 1/2 G5 ||',
    ],
    [
      'another tempo',
      'tempo: 1/4 = 60\n1/4 C5 |: D5 :|\ntempo: 1/4 = 120\nE5 rest :| F5',
      'tempo: 1/4 = 60\n1/4 C5 | D5 | D5 |\ntempo: 1/4 = 120\nE5 rest | E5 rest | F5',
    ],
    ['a note held into it is struck anew', '1/4 D5_ |: D5 E5 :| F5', '1/4 D5_ | D5 E5 | D5 E5 | F5'],
    [
      'a note held out of an ending that is left out',
      '|: 1/4 D5 | ending 1 E5_ :| ending 2 E5 F5 ||',
      '1/4 D5 | E5 | D5 | E5 F5 ||',
    ],
    ['a note held out of it', '|: 1/4 D5 E5_ :| E5 F5', '1/4 D5 E5 | D5 E5_ | E5 F5'],
  ])('%s', (_, repeated, writtenOut) => {
    expect(heard(asPlayed(passageOf(repeated)).passage)).toEqual(heard(passageOf(writtenOut)));
  });

  test('any passage sounds as if its repeats were written out', () => {
    const note = fc.constantFrom('D5', 'E5', 'rest', 'A4', '1/8 B4 C5 1/4');
    const bar = fc.array(note, { minLength: 1, maxLength: 4 }).map((notes) => `1/4 ${notes.join(' ')}`);
    const section = fc.record({ bars: fc.array(bar, { minLength: 1, maxLength: 3 }), twice: fc.boolean() });
    fc.assert(
      fc.property(fc.array(section, { minLength: 1, maxLength: 4 }), (sections) => {
        const repeated = sections
          .map(({ bars, twice }) => (twice ? `|: ${bars.join(' | ')} :|` : `${bars.join(' | ')} |`))
          .join(' ');
        const writtenOut = sections.flatMap(({ bars, twice }) => (twice ? [...bars, ...bars] : bars)).join(' | ');
        expect(heard(asPlayed(passageOf(repeated)).passage)).toEqual(heard(passageOf(writtenOut)));
      }),
      { numRuns: 60 },
    );
  });
});
