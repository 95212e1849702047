import { describe, expect, it } from 'vitest';
import { inlays } from '../../server/features/inlay';
import type { Settings } from '../../server/protocol/settings';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
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
    expect(shown('1/4 <>A5')).toMatch(/^1\/4 <>A5‹I{1,3}V? \d\/\d \d›$/);
    expect(shown('1/4 C#7o').replace(/[1-4]-[1-4]›/, '1-4›')).toMatch(/^1\/4 C#7o‹.*›$/);
    expect(shown('1/4 A4')).toMatch(/^1\/4 A4‹(II 0|III 4)›$/);
  });

  it('shows both notes of a double stop, and a held note once', () => {
    expect(shown('1/4 E6o+B6o').match(/‹/g)).toHaveLength(2);
    expect(shown('1/4 D6o_ D6o').match(/‹/g)).toHaveLength(1);
  });

  it('tells in words on the tooltip', () => {
    const [first] = inlays(reading('D6o'), { start: 0, end: 3 }, DEFAULT_SETTINGS);
    expect(first?.tooltip).toMatch(/^III natural 1\/4, finger \d, sounds D6$/);
  });

  it('can be turned off, and keeps to what is asked for', () => {
    expect(shown('D6o E6o', { fingeringHints: false })).toBe('D6o E6o');
    const text = 'D6o\nE6o\nF#6o';
    expect(shown(text, {}, { start: 4, end: 7 })).toMatch(/^D6o\nE6o‹.*›\nF#6o$/);
  });

  it('points out stopped notes that a natural harmonic can check, where asked for', () => {
    const text = '1/4 A4 [III 4] F4 [III 2] D5 [II 3]';
    expect(shown(text)).toBe(text);
    // A4 is no harmonic of a violin string; D5 is the octave of D4 and the third partial of G3, and F4 neither.
    expect(shown(text, { fingeringHints: false, referenceNotes: true })).toMatch(
      /^1\/4 A4 \[III 4\] F4 \[III 2\] D5‹= (III 1\/2|IV [12]\/3)› \[II 3\]$/,
    );
  });

  it('shows nothing for a motif, whose notes all stand at its use', () => {
    expect(shown('motif wave = D5 E5\nwave')).toBe('motif wave = D5 E5\nwave');
  });
});
