import { describe, expect, it } from 'vitest';
import type { Action } from '../../server/features/action';
import { actions } from '../../server/features/actions';
import type { Settings } from '../../server/protocol/settings';
import { ceiling } from '../../server/solver/ceiling';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { caret, edited } from '../support/caret';
import { fingerings, reading } from '../support/reading';

function offered(fixture: string, settings: Partial<Settings> = {}): { text: string; all: readonly Action[] } {
  const { text, at } = caret(fixture);
  return { text, all: actions(reading(text, settings), { start: at, end: at }, { ...DEFAULT_SETTINGS, ...settings }) };
}

function changed(fixture: string, title: string | RegExp, settings: Partial<Settings> = {}): string {
  const { text, all } = offered(fixture, settings);
  const [action, ...more] = all.filter((one) => (typeof title === 'string' ? one.title === title : title.test(one.title)));
  expect(more).toEqual([]);
  if (!action) throw new Error(`No action ${title} among: ${all.map((one) => one.title).join('; ')}`);
  return edited(text, action.edits);
}

describe('fixes of problems', () => {
  it('offers the fixes of a problem at the caret and none of others', () => {
    const { all } = offered('1/4 d^6o wobble: 3');
    const fixes = all.filter(({ kind }) => kind === 'fix');
    expect(fixes.map(({ title }) => title)).toContain('Write D6o');
    expect(fixes.every(({ problem }) => problem?.code === 'pitch-letter')).toBe(true);
  });

  it.each([
    ['d^6o', 'D6o'],
    ['D6o [natur^el]', 'D6o [natural]'],
    ['tem^p: 1/4 = 60', 'tempo: 1/4 = 60'],
    ['hand: mid^ium\nD5', 'hand: medium\nD5'],
    ['E5<>A5 = ^E6', 'E5<>A5 = E7'],
  ])('fixes %s', (fixture, wanted) => {
    const { text, all } = offered(fixture);
    const [fix] = all.filter(({ kind }) => kind === 'fix');
    const fixed = edited(text, fix?.edits ?? []);
    expect(fixed).toBe(wanted);
    expect(reading(fixed).problems.length).toBeLessThan(reading(text).problems.length);
  });

  it('lists the fixes of a selection as far as anybody reads a list', () => {
    const text = Array(300).fill('hand: meduim').join('\n');
    const all = actions(reading(text), { start: 0, end: text.length }, DEFAULT_SETTINGS);
    const lines = all
      .filter(({ kind }) => kind === 'fix')
      .map(({ problem }) => (problem?.span.start ?? 0) / 'hand: meduim\n'.length);
    expect(Math.min(...lines)).toBeLessThan(1);
    expect(Math.max(...lines)).toBeLessThan(60);
  });

  it('fixes all that is safe at once, each place once', () => {
    const text = 'A4<>D5 = A5 B4<>E5 = B5 d5 H5';
    const found = actions(reading(text), { start: 0, end: 0 }, DEFAULT_SETTINGS, ['fixAll']);
    const safe = reading(text).problems.filter(({ fixes }) => fixes.some((fix) => fix.certainty === 'sure')).length;
    expect([found.length, safe]).toEqual([1, 1]);
    const fixed = edited(text, found[0]?.edits ?? []);
    expect(reading(fixed).problems).toHaveLength(reading(text).problems.length - safe);
    expect(offered('^A4<>D5 = A5').all.map(({ kind }) => kind)).not.toContain('fixAll');
  });
});

describe('the same note in another form', () => {
  it('writes a sounding pitch as printed, and the printed form as it sounds, and is played the same', () => {
    const printed = changed('1/4 C#7^o [II]', /^Write it as printed/);
    expect(printed).toMatch(/^1\/4 (?:<>|[A-G]#?\d<>)[A-G]#?\d \[II\]$/);
    const back = changed(printed.replace('<>', '<>^'), /^Write it as it sounds/);
    expect(back).toBe('1/4 C#7o [II]');
  });

  it('adds string and node to a lone diamond, which can mean several pitches', () => {
    const printed = changed('1/4 D6^o', 'Write it as printed: <>G4');
    expect(printed).toBe('1/4 <>G4 [III at 1/4]');
    expect(fingerings(reading(printed))).toEqual(fingerings(reading('1/4 D6o')));
  });

  it('drops an expected pitch that has then been said', () => {
    expect(changed('A4<>D5^ = A6 [III 1-4]', 'Write it as it sounds: A6o')).toBe('A6o [III 1-4]');
  });

  it.each([
    ['F#5^', 'Respell F#5 as Gb5', 'Gb5'],
    ['Gb5^o', 'Respell Gb5 as F#5', 'F#5o'],
    ['B#4^', 'Respell B#4 as C5', 'C5'],
    ['Bb4<>Eb^5', 'Respell Eb5 as D#5', 'Bb4<>D#5'],
  ])('respells %s', (fixture, title, wanted) => {
    expect(changed(fixture, title)).toBe(wanted);
  });

  it('has no other name for a plain white key', () => {
    expect(offered('D5^').all.filter(({ title }) => title.startsWith('Respell'))).toEqual([]);
  });
});

describe('the safe tempo', () => {
  const leaps = '1/16 D5 [II] D6^ [II 1] A4 G5 [II 1]';
  const half = { safeChance: 0.5 };

  it('lowers the tempo to where the passage is as clean as wanted', () => {
    const fast = `passage: Mole head\ntempo: 1/4 = 200\n${leaps}`;
    const slower = changed(fast, /^Lower the tempo to 1\/4 = \d+, clean 5 times in 10/, half);
    const solution = reading(slower).solutions[0];
    const bpm = solution?.passage.events[0]?.tempo.bpm ?? 0;
    expect(bpm).toBeLessThan(200);
    expect(solution?.clean).toBeGreaterThanOrEqual(0.5);
    const before = reading(caret(fast).text).solutions[0];
    expect(before && ceiling(before, 0.5)?.bpm).toBe(bpm);
  });

  it('slows every tempo of the passage by the same measure', () => {
    const slower = changed(`tempo: 1/4 = 200\n${leaps}\ntempo: 1/4 = 100\nA4 [II open] E5 [I open]`, /^Lower/, half);
    const [first = 0, second = 0] = [...slower.matchAll(/tempo: 1\/4 = (\d+)/g)].map((match) => Number(match[1]));
    expect(first).toBeLessThan(200);
    expect(Math.abs(second - first / 2)).toBeLessThanOrEqual(1);
  });

  it('writes a tempo where the passage has none of its own', () => {
    const quick = leaps.replace('1/16', '1/48');
    expect(changed(quick, /^Lower the tempo/, half)).toMatch(/^tempo: 1\/4 = \d+\n1\/48/);
    expect(changed(`passage: Mole\r\n${quick}`, /^Lower the tempo/, half)).toMatch(
      /^passage: Mole\r\ntempo: 1\/4 = \d+\r\n1\/48/,
    );
  });

  it('is not offered where the passage is clean enough', () => {
    expect(offered('1/4 D5^ E5').all.filter(({ title }) => title.startsWith('Lower'))).toEqual([]);
  });
});

describe('motifs', () => {
  it('writes a motif out where it is used, durations restored after it', () => {
    expect(changed('motif wave = 1/16 D5 slur(E5 F#5)\n1/4 A4 w^ave up P8 G5', 'Write the motif out')).toBe(
      'motif wave = 1/16 D5 slur(E5 F#5)\n1/4 A4 1/16 D6 slur(E6 F#6) 1/4 G5',
    );
  });
});

describe('silencing a check', () => {
  const lone = '1/4 D5 E6o^ [IV third] D5';

  it('turns it off for its line or the file, in words that the check comment reads', () => {
    const { all } = offered(lone);
    const offs = all.filter(({ title }) => /^Turn “.*” off/.test(title));
    expect(offs.length).toBeGreaterThanOrEqual(2);
    for (const { edits, problem } of offs) {
      const quiet = reading(edited(caret(lone).text, edits));
      expect(quiet.problems.filter(({ code }) => code === problem?.code || code.startsWith('unknown-'))).toEqual([]);
    }
  });
});
