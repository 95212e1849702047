import { describe, expect, it } from 'vitest';
import { actions } from '../../server/features/actions';
import { pinAll, pinChosen } from '../../server/features/pin-choice';
import { alternatives } from '../../server/solver/alternatives';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { caret, edited, stretch } from '../support/caret';
import { fingerings, reading, shorthand } from '../support/reading';

/** The text after the one action of that title at the caret. */
function changed(fixture: string, title: RegExp): string {
  const { text, at } = caret(fixture);
  return chosen(text, { start: at, end: at }, title);
}

function chosen(text: string, span: { start: number; end: number }, title: RegExp): string {
  const found = actions(reading(text), span, DEFAULT_SETTINGS).filter((action) => title.test(action.title));
  expect(found.map((action) => action.title)).toHaveLength(1);
  return edited(text, found[0]?.edits ?? []);
}

describe('pinning', () => {
  it('writes out each use of a motif with its own hints, however often it is used', () => {
    const text = `motif wave = 1/16 D5 E5 F#5 A5\n${Array(300).fill('wave |').join('\n')}`;
    const pinned = chosen(text, { start: 0, end: text.length }, /^Pin the selected notes/);
    expect(pinned.split('\n').filter((line) => (line.match(/\[/g) ?? []).length === 4)).toHaveLength(300);
    expect(fingerings(reading(pinned))).toEqual(fingerings(reading(text)));
  });

  it.each([
    ['D6o^', 'D6o []'],
    ['1/4 ^A4 B4', '1/4 A4 [] B4'],
    ['<>A4^ [III]', '<>A4 []'],
    ['E6o^+B6o', 'E6o []+B6o []'],
    ['slur(D5^ E5) // two notes', 'slur(D5 [] E5) // two notes'],
  ])('writes the chosen fingering of %s as hints behind it', (fixture, wanted) => {
    const { text } = caret(fixture);
    const pinned = changed(fixture, /^Pin this note/);
    expect(pinned.replace(/\[[^\]]*\]/g, '[]')).toBe(wanted);
    expect(fingerings(reading(pinned))).toEqual(fingerings(reading(text)));
  });

  it.each(['D6o', 'F#6o', 'E7o', 'B6o', 'E5<>A5', '<>D5', 'G5', 'A4', 'E6o+B6o', 'harmonics: allowed\nA5'])(
    'writes every alternative of %s so that it and no other is played',
    (text) => {
      const before = reading(text);
      const solution = before.solutions[0];
      if (!solution) throw new Error('nothing to play');
      const all = alternatives(solution, 0);
      expect(all.length).toBeGreaterThan(0);
      for (const [alternative, { fingering }] of all.entries()) {
        const edits = pinChosen(before, { passage: 0, event: 0, alternative });
        const pinned = edited(text, edits ?? []);
        expect([pinned, ...fingerings(reading(pinned))]).toEqual([pinned, fingering.ways.map(shorthand).join(' + ')]);
      }
    },
  );

  it('pins a whole passage without changing how it is played, and unpins it again', () => {
    const text = 'passage: Mole head\n1/4 D6o E6o F#6o G6o |\n1/8 D5 [II] F#5 A5_ A5 E6o+B6o ||';
    const pinned = changed(text.replace('Mole', 'Mo^le'), /^Pin the passage/);
    expect(fingerings(reading(pinned))).toEqual(fingerings(reading(text)));
    expect(pinned.match(/\[/g)).toHaveLength(10);
    const unpinned = changed(pinned.replace('Mole', 'Mo^le'), /^Unpin the passage/);
    expect(unpinned).toBe(text.replace(' [II]', ''));
  });

  it('keeps a position that the editor wrote', () => {
    expect(changed('D6o^ [3rd]', /^Pin this note/)).toMatch(/^D6o \[III .* 3rd\]$/);
  });

  it('gives a note its own position where that of its group does not fit it', () => {
    const fixed = changed('slur(<>^A3)[1st at 1/2]', /^Play it as III fourth harmonic, fingers 1-4/);
    expect(fixed).toBe('slur(G6o [III fourth 1-4 3rd])[1st at 1/2]');
    expect(reading(fixed).problems).toEqual([]);
  });

  it('pins what is selected', () => {
    const { text, span } = stretch('1/4 D6o ^E6o F#6o^ G6o');
    const pinned = chosen(text, span, /^Pin the selected notes/);
    expect(pinned.replace(/\[[^\]]*\]/g, '[]')).toBe('1/4 D6o E6o [] F#6o [] G6o');
  });

  it('writes a motif out to pin a note of it', () => {
    const text = 'motif wave = 1/16 D5 E5 F#5o\n1/4 A4 wave up P8 G5';
    const before = reading(text);
    const solution = before.solutions[0];
    if (!solution) throw new Error('nothing to play');
    const third = solution.events[3]?.fingering;
    if (!third) throw new Error('no fingering');
    const pinned = edited(text, pinAll(before, solution.passage, new Map([[3, third]])));
    expect(pinned.replace(/\[[^\]]*\]/g, '[]')).toBe('motif wave = 1/16 D5 E5 F#5o\n1/4 A4 1/16 D6 E6 F#6o [] 1/4 G5');
    expect(fingerings(reading(pinned))).toEqual(fingerings(before));
  });

  it('answers nothing to a choice that there is not', () => {
    const before = reading('D6o');
    for (const wrong of [
      { passage: 9, event: 0, alternative: 0 },
      { passage: 0, event: 9, alternative: 0 },
      { passage: 0, event: 0, alternative: 999 },
      { passage: 0, event: 0, alternative: -1 },
    ])
      expect(pinChosen(before, wrong)).toBeUndefined();
  });
});
