import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CLEAN, folder, passagework, UNPLAYABLE } from './command';

const EXAMPLE = 'client/examples/lighthouse-study.passage';

describe('exercises', () => {
  it('writes passage text that the command itself finds no error in and can finger', () => {
    const made = passagework(['exercises', EXAMPLE]);
    expect(made).toMatchObject({ code: 0, err: '' });
    expect(made.out.split('\n')[1]).toBe(
      '// Exercises made by Passagework from Lighthouse study, Harbour bells (lighthouse-study.passage).',
    );
    expect(passagework(['check', '-'], { input: made.out }).code).toBe(0);
    const solved = JSON.parse(passagework(['solve', '-', '--format', 'json'], { input: made.out }).out);
    expect(solved.passages.length).toBeGreaterThan(10);
    for (const { events } of solved.passages)
      for (const { notes, duration } of events) if (duration !== '0') expect(notes.length).toBeGreaterThan(0);
    expect(passagework(['exercises', EXAMPLE]).out).toBe(made.out);
  });

  it('makes only the kinds asked for, of the passage named, in the file named', () => {
    using place = folder({ 'studies.passage': readFileSync(EXAMPLE, 'utf8') });
    const words = [
      'exercises',
      'studies.passage',
      '--passage',
      'harbour bells',
      '--kinds',
      'double-stops,rhythms',
      '-o',
      'ex.passage',
    ];
    const { code, out, err } = passagework(words, { cwd: place.path });
    expect({ code, out }).toEqual({ code: 0, out: 'Exercises: ex.passage (1 double-stops)\n' });
    expect(err).toBe('passagework: left out: rhythms needs at least 4 notes of one length in a row.\n');
    const text = readFileSync(join(place.path, 'ex.passage'), 'utf8');
    expect(text.match(/^passage: .*$/gm)).toEqual(['passage: Double stop: E6 and B6']);
    // Never over a file that a teacher may have changed since.
    expect(passagework(words, { cwd: place.path })).toMatchObject({ code: 2, out: '' });
    expect(passagework([...words, '--force'], { cwd: place.path }).code).toBe(0);
  });

  it('takes the hand from the command line into the exercises', () => {
    const { out } = passagework(['exercises', '-', '--hand', '1-2 44, 1-4 90'], { input: 'passage: Ebb\n1/4 E5<>A5 [II] D6o\n' });
    expect(out).toMatch(/^hand: 1-2 44, 1-3 [\d.]+, 1-4 90, /m);
  });

  it.each([
    [
      'a kind there is none of',
      ['-', '--kinds', 'scales'],
      CLEAN,
      /--kinds: scales is not one of reference-notes, .*tempo-ladder/,
    ],
    [
      'a passage there is none of',
      ['-', '--passage', 'Flood'],
      `passage: Ebb\n${CLEAN}`,
      /no passage “Flood” in it. It has: Ebb/,
    ],
    ['a file there is none of', ['nowhere.passage'], '', /There is no file or folder nowhere\.passage/],
    ['text without notes', ['-'], '// nothing yet\n', /no passage in it/],
    ['what has no material', ['-', '--kinds', 'double-stops'], CLEAN, /double-stops needs a double stop with a harmonic/],
  ])('refuses %s', (_, words, input, reason) => {
    const { code, out, err } = passagework(['exercises', ...words], { input });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(reason);
  });

  it('leaves out what can’t be played and makes exercises of the rest', () => {
    const { code, out } = passagework(['exercises', '-'], { input: `passage: Ebb\n${UNPLAYABLE}${CLEAN}` });
    expect(code).toBe(0);
    expect(out).not.toContain('C3');
  });
});
