import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { repair, withEdits } from '../../server/command/repair';
import { readText, study } from '../../server/command/study';
import { actions } from '../../server/features/actions';
import { pitchName } from '../../server/music/pitch';
import type { Certainty } from '../../server/rules/rule';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { draft } from '../../server/workspace/snapshot';

const read = readText({});
const repaired = (text: string, certainty: Certainty = 'sure') => repair(text, read, certainty).draft.tree.text;

/** What sounds, and how long, of all that can be read. */
function music(text: string): readonly string[] {
  return draft(text, 0, DEFAULT_SETTINGS).resolved.passages.flatMap(({ events }) =>
    events.flatMap(({ spec, duration }) => {
      // Where no note can be read there is time and no music.
      if (spec.notes.length === 0) return [];
      const notes = spec.notes.map(({ asked }) => (asked.kind === 'sounding' ? pitchName(asked.pitch) : asked.kind));
      return `${duration.toFraction()} ${notes.join('+')}`;
    }),
  );
}

describe('fixes that are applied unasked', () => {
  it.each([
    ['1/4 d5 a5o |', '1/4 D5 A5o |'],
    ['1/4 D5, E5; F#5', '1/4 D5 E5 F#5'],
    ['tempo 1/4 = 60\r\n1/4 D5\r\n', 'tempo: 1/4 = 60\r\n1/4 D5\r\n'],
    ['1/4.. D5', '7/16 D5'],
    ['1/4 F♮5 Gx4', '1/4 F5 G##4'],
    ['1/4 D6o [minor third] E5 []', '1/4 D6o [minor-third] E5 '],
  ])('%j is %j', (text, wanted) => {
    expect(repaired(text)).toBe(wanted);
    expect(repaired(wanted)).toBe(wanted);
  });

  it('invent no music', () => {
    for (const text of ['tempo: fast\n1/0 H5\n', '1/4 b5 Fis5 D60 8 E5 ffff G5 (A5 B5', 'title: A\ntitle: B\n1/4 wafe D5\n'])
      expect(repaired(text)).toBe(text);
    expect(repaired('tempo: fast\n1/0 H5\n', 'likely')).toContain('1/8 B5');
  });

  it('keep every note and duration that could be read, and find nothing more the second time', { timeout: 60_000 }, () => {
    const word = fc.constantFrom(
      'D5',
      'd5',
      'F#5',
      'E6o',
      'A5,',
      '1/8',
      '1/4..',
      '1/0',
      'H4',
      'b4',
      '[II',
      '[minor third]',
      '[]',
      '|',
      'slur(',
      ')',
      'p',
      'ffff',
      '8',
      ';',
    );
    const line = fc.array(word, { maxLength: 9 }).map((words) => words.join(' '));
    const text = fc.array(fc.oneof(line, fc.constantFrom('tempo 1/4 = 90', 'motif w D5 E5', 'title: x', '// note')), {
      maxLength: 5,
    });
    fc.assert(
      fc.property(text, (lines) => {
        const before = lines.join('\n');
        const after = repaired(before);
        // What could be read is still there, in its order; what a fix made readable may stand between.
        const now = music(after);
        let at = 0;
        for (const event of music(before)) {
          const [, sound] = event.split(' ');
          const found = now.findIndex((each, index) => index >= at && each.endsWith(` ${sound}`));
          expect(found, `${event} of ${JSON.stringify(before)} is lost in ${JSON.stringify(after)}`).toBeGreaterThanOrEqual(at);
          at = found + 1;
        }
        expect(repaired(after)).toBe(after);
      }),
      { numRuns: 40, seed: 18 },
    );
  });

  it('are the same that the editor applies as “fix all”', () => {
    const text = '1/4 d5, e5 H5 F#5,\ntempo 1/4 = 60\n';
    const reading = study(text, {});
    const [all] = actions(reading, { start: 0, end: 0 }, DEFAULT_SETTINGS, ['fixAll']);
    expect(withEdits(text, all?.edits ?? [])).toBe(repaired(text));
  });
});
