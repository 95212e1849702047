import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTried, triedWords } from '../../server/player/attempt-words';
import { logAttempt } from '../../server/player/log-attempt';
import { choiceOf } from '../../server/player/player-file';
import { readPlayer } from '../../server/player/read-player';
import { setValue } from '../../server/player/set-value';
import { edited } from '../support/caret';

const INES = `// Invented.
name: Ines
instrument: violin 3/4
strings: gut, new in March // wound G
hand: 1-2 48, 1-4 98
comfort: 70 %
in tune: 12 cents

III 1/5: 4 of 10 // only whistles
II fourth: 7 of 8
III natural 1/5: 1 of 2
I stopped: 14/15
`;

/** What is wrong, each as the words it stands on and what fixes it. */
function told(text: string) {
  return readPlayer(text).problems.map(({ code, span, message, fixes }) => ({
    code,
    on: text.slice(span.start, span.end),
    message,
    fixed: fixes.map((fix) => edited(text, fix.edits)),
  }));
}

describe('a player file', () => {
  it('reads every line, and adds up what is told of one thing twice', () => {
    const file = readPlayer(INES);
    expect(file.problems).toEqual([]);
    expect(file.values).toEqual({
      name: 'Ines',
      instrument: { family: 'violin', size: { name: '3/4' } },
      strings: 'gut, new in March',
      hand: { kind: 'measured', most: { '1-2': 48, '1-4': 98 } },
      comfort: { kind: 'share', share: 0.7 },
      'in tune': 12,
    });
    expect(file.experience).toEqual({
      'III natural 1/5': { clean: 5, tried: 12 },
      'II artificial 1/4': { clean: 7, tried: 8 },
      'I stopped': { clean: 14, tried: 15 },
    });
    expect(choiceOf(file, 'ines')).toMatchObject({ name: 'Ines', accuracy: { inTune: 12 } });
    expect(choiceOf(readPlayer(''), 'ines')).toEqual({ name: 'ines' });
  });

  it.each([
    ['name Ines', 'player-line', 'name Ines', 'name: Ines'],
    ['III 1/4 4 of 10', 'player-line', 'III 1/4 4 of 10', 'III 1/4: 4 of 10'],
    ['practised a lot', 'player-line', 'practised a lot', '// practised a lot'],
    ['hnd: small', 'player-key', 'hnd', 'hand: small'],
    ['instrument: violn', 'player-value', 'violn', 'instrument: violin'],
    ['comfort: 70', 'player-value', '70', 'comfort: 70 %'],
    ['in tune: 12', 'player-value', '12', 'in tune: 12 cents'],
    ['landing: 1.5', 'player-value', '1.5', 'landing: 1.5 mm'],
    ['III 2/10: 1 of 2', 'player-attempt', '2/10', 'III 1/5: 1 of 2'],
    ['III 5/1: 1 of 2', 'player-attempt', '5/1', 'III 1/5: 1 of 2'],
    ['II fuorth: 1 of 2', 'player-attempt', 'fuorth', 'II fourth: 1 of 2'],
    ['III 1/5: 10 of 4', 'player-attempt', '10 of 4', 'III 1/5: 4 of 10'],
    ['III 1/5: often', 'player-attempt', 'often', 'III 1/5: 0 of 1'],
  ])('%s: %s at its place, and a fix that reads', (text, code, on, fixed) => {
    const [first, ...others] = told(`name: A // x\n${text}\n`.replace(/^name: A \/\/ x\n(?=name)/, '\n'));
    expect(others).toEqual([]);
    expect(first).toMatchObject({ code, on });
    expect(first!.message).toMatch(/\.$/);
    expect(first!.fixed[0]?.split('\n')[1]).toBe(fixed);
    expect(readPlayer(first!.fixed[0]!).problems).toEqual([]);
  });

  it('refuses what no hand, string or count can be, and keeps the rest', () => {
    expect(told('hand: 1-2 5').map(({ on }) => on)).toEqual(['5']);
    expect(told('hand: T-1 60').map(({ code }) => code)).toEqual(['player-value']);
    expect(told('instrument: cello\nhand: T-1 60')).toEqual([]);
    expect(told('hand: T-1 60\ninstrument: cello')).toEqual([]);
    expect(told('V 1/4: 1 of 2').map(({ code }) => code)).toEqual(['player-key']);
    expect(told('III 1/9: 1 of 2').map(({ code }) => code)).toEqual(['player-attempt']);
    expect(told('III 1/4: 1 of 99999999').map(({ code }) => code)).toEqual(['player-attempt']);
    expect(told('hand: 1-4 98\ncomfort: 1-4 110').map(({ code, on }) => `${code} ${on}`)).toEqual(['player-value comfort']);
    expect(told('hand: small\nhand: large').map(({ code, on }) => `${code} ${on}`)).toEqual(['player-twice hand']);
    expect(readPlayer('hand: small\nhand: large\nfoo').values.hand).toEqual({ kind: 'named', name: 'large' });
  });

  it('never throws, loses no text and marks places inside it, whatever it is given', () => {
    const pieces = fc.constantFrom(
      'III',
      '1/5',
      ':',
      ' ',
      '4 of 10',
      'hand',
      'in tune',
      '//',
      '\n',
      '\r\n',
      '\r',
      '%',
      '12',
      'é',
      '\u0000',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(pieces).map((words) => words.join('')),
        ),
        (text) => {
          const { lines, problems } = readPlayer(text);
          expect(lines.map(({ start, end }) => text.slice(start, end))).toEqual(text.split(/\r\n|\r|\n/));
          for (const { span, fixes } of problems) {
            expect(0 <= span.start && span.start <= span.end && span.end <= text.length).toBe(true);
            for (const { edits } of fixes) expect(() => readPlayer(edited(text, edits))).not.toThrow();
          }
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('counting an attempt', () => {
  const tried = (words: string) => {
    const reading = readTried(words);
    if ('faults' in reading) throw new Error(words);
    return reading.value;
  };
  const logged = (text: string, words: string, clean: boolean) => edited(text, [logAttempt(text, tried(words), clean)]);

  it('changes the counts of its line and nothing else: comments stay', () => {
    expect(logged(INES, 'II fourth', true)).toBe(INES.replace('7 of 8', '8 of 9'));
    expect(logged(INES, 'I stopped', false)).toBe(INES.replace('14/15', '14 of 16'));
    expect(logged('III 1/5: 4 of 10 // whistles\r\n', 'III 1/5', false)).toBe('III 1/5: 4 of 11 // whistles\r\n');
  });

  it('writes a new line after the other attempts where there is none', () => {
    expect(logged(INES, 'IV 1/3', true)).toBe(`${INES.trimEnd()}\nIV 1/3: 1 of 1\n`);
    expect(logged('', 'II fifth', false)).toBe('II fifth: 0 of 1\n');
    expect(logged('name: A\r\n', 'II fifth', false)).toBe('name: A\r\nII fifth: 0 of 1\r\n');
  });

  it('adds exactly one attempt at exactly that, in any file', () => {
    const words = fc.constantFrom('III 1/5', 'II fourth', 'I stopped', 'IV 3/8');
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...INES.split('\n'), 'broken', 'II fifth: x')),
        words,
        fc.boolean(),
        (lines, one, clean) => {
          const text = lines.join('\n');
          const [before, after] = [readPlayer(text), readPlayer(logged(text, one, clean))];
          const count = ({ experience }: typeof before) =>
            Object.values(experience).reduce((sum, all) => ({ clean: sum.clean + all.clean, tried: sum.tried + all.tried }), {
              clean: 0,
              tried: 0,
            });
          expect(count(after)).toEqual({ clean: count(before).clean + (clean ? 1 : 0), tried: count(before).tried + 1 });
          expect(after.problems.length).toBe(before.problems.length);
          expect(triedWords(tried(one))).toBe(one);
        },
      ),
    );
  });
});

describe('setting a value', () => {
  it('replaces it in place, fills it in where it is missing, or writes the line where such files have it', () => {
    const set = (text: string, value = '1-4 90') => edited(text, [setValue(text, 'hand', value)]);
    expect(set(INES)).toBe(INES.replace('1-2 48, 1-4 98', '1-4 90'));
    expect(set('hand: small // for now\n')).toBe('hand: 1-4 90 // for now\n');
    expect(set('hand:\nname: A')).toBe('hand: 1-4 90\nname: A');
    expect(set('name: A\nIII 1/4: 1 of 2')).toBe('name: A\nhand: 1-4 90\nIII 1/4: 1 of 2');
    expect(set('III 1/4: 1 of 2')).toBe('hand: 1-4 90\nIII 1/4: 1 of 2');
    expect(set('')).toBe('hand: 1-4 90\n');
  });
});
