import { describe, expect, it } from 'vitest';
import { inlays } from '../../server/features/inlay';
import type { Settings } from '../../server/protocol/settings';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { type Snapshot, snapshot } from '../../server/workspace/snapshot';
import { edited } from '../support/caret';
import { reading } from '../support/reading';

/** The text as shown, each inlay in its place between angle brackets. */
function shown(text: string, given: Partial<Settings> = {}, span = { start: 0, end: text.length }): string {
  const settings = { ...DEFAULT_SETTINGS, ...given };
  return [...inlays(reading(text, given), span, settings)]
    .reverse()
    .reduce((now, { at, label }) => `${now.slice(0, at)}‹${label}›${now.slice(at)}`, text);
}

describe('inlay hints', () => {
  it('shows string, point and finger behind every note, and nothing where hints say it', () => {
    expect(shown('1/4 D6o [III at 1/4 1] A4 [II open] E6o [II at 1/3 2]')).toBe(
      '1/4 D6o [III at 1/4 1] A4 [II open] E6o [II at 1/3 2]',
    );
    expect(shown('1/4 <>A5')).toMatch(/^1\/4 <>A5‹I{1,3}V? at \d\/\d \d›$/);
    expect(shown('1/4 C#7o').replace(/[1-4]-[1-4]›/, '1-4›')).toMatch(/^1\/4 C#7o‹.*›$/);
    expect(shown('1/4 B3')).toBe('1/4 B3‹IV 2›');
  });

  it('says only what is new, at the head of each line all of it, and on request every note', () => {
    const scale = '1/4 B4 C5 D5\nB4 C5';
    expect(shown(scale)).toBe('1/4 B4‹II 1› C5 D5\nB4‹II 1› C5');
    expect(shown(scale, { fingeringHints: 'all' })).toBe('1/4 B4‹II 1› C5‹II 2› D5‹II 3›\nB4‹II 1› C5‹II 2›');
  });

  const texts = [
    '1/4 D6o E6o F#6o G6o E5<>A5 <>A4 A5 B5o C#7o',
    'instrument: cello\n1/8 C3 D3 F#3 A3 E4 C5 D4o',
    '1/4 G3 A4 E5 E6o+B6o A5o B5 G5+B5',
    'harmonics: allowed\n1/8 A5 B5 E6 A4 D5 G5 E5',
  ];
  it.each(texts)('writes what it shows into the text, where it is a hint that can be met: %j', (text) => {
    const settings: Settings = { ...DEFAULT_SETTINGS, fingeringHints: 'all' };
    const before = reading(text);
    const found = inlays(before, { start: 0, end: text.length }, settings);
    expect(found.length).toBeGreaterThan(4);
    for (const { edit, label } of found) {
      const now = edited(text, [edit!]);
      expect(now).toContain(` [${label}]`);
      const errors = ({ problems }: Snapshot) => problems.filter(({ severity }) => severity === 'error').length;
      expect(errors(snapshot(now, 2, DEFAULT_SETTINGS, before)), now).toBe(errors(before));
    }
    const all = edited(
      text,
      found.map(({ edit }) => edit!),
    );
    expect(inlays(reading(all), { start: 0, end: all.length }, settings)).toEqual([]);
  });

  it('shows both notes of a double stop, and a held note once', () => {
    expect(shown('1/4 E6o+B6o').match(/‹/g)).toHaveLength(2);
    expect(shown('1/4 D6o_ D6o').match(/‹/g)).toHaveLength(1);
  });

  it('tells in words on the tooltip', () => {
    const [first] = inlays(reading('D6o'), { start: 0, end: 3 }, DEFAULT_SETTINGS);
    expect(first?.tooltip).toMatch(/^III natural 1\/4, finger \d, sounds D6\. Double-click/);
  });

  it('can be turned off, and keeps to what is asked for', () => {
    expect(shown('D6o E6o', { fingeringHints: 'off' })).toBe('D6o E6o');
    const text = 'D6o\nE6o\nF#6o';
    expect(shown(text, {}, { start: 4, end: 7 })).toMatch(/^D6o\nE6o‹.*›\nF#6o$/);
  });

  it('points out stopped notes that a natural harmonic can check, where asked for', () => {
    const text = '1/4 A4 [III 4] F4 [III 2] D5 [II 3]';
    expect(shown(text)).toBe(text);
    // A4 is no harmonic of a violin string; D5 is the octave of D4 and the third partial of G3, and F4 neither.
    expect(shown(text, { fingeringHints: 'off', referenceNotes: true })).toMatch(
      /^1\/4 A4 \[III 4\] F4 \[III 2\] D5‹= (III 1\/2|IV [12]\/3)› \[II 3\]$/,
    );
  });

  it('shows nothing for a motif, whose notes all stand at its use', () => {
    expect(shown('motif wave = D5 E5\nwave')).toBe('motif wave = D5 E5\nwave');
  });

  it('shows the same after an edit as if the text had been opened so', () => {
    const before = '1/4 B4 C5 D5\nB4 C5 E5_\nE5 A5';
    const settings: Settings = { ...DEFAULT_SETTINGS, referenceNotes: true };
    const all = (one: Snapshot) => inlays(one as ReturnType<typeof reading>, { start: 0, end: one.tree.text.length }, settings);
    for (const now of [before.replace('D5', 'D5 G5'), before.replace('C5 E5_', 'C5'), `instrument: viola\n${before}`, before]) {
      const first = reading(before);
      all(first);
      expect(all(snapshot(now, 2, settings, first)), now).toEqual(all(reading(now)));
    }
  });
});
