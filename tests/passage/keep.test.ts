import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { fingerings, reading } from '../support/reading';
import { eventsOf, problemsOf } from './reading';

const pins = (text: string) => eventsOf(text).map(({ spec }) => spec.notes.map((note) => note.pins));

describe('keep', () => {
  it('holds from its line on, until another or free, and from the head for the whole passage', () => {
    expect(pins('D5\nkeep: II\nD5\nkeep: 3rd\nD5\nkeep: free\nD5')).toEqual([[{}], [{ string: 2 }], [{ position: 3 }], [{}]]);
    expect(pins('keep: II, 3rd\nD5\nkeep: no open strings\nD5')).toEqual([[{ string: 2, position: 3 }], [{ open: false }]]);
  });

  it('gives way to a note’s own hints and to those of its group', () => {
    expect(pins('keep: II 3rd\nD5 [III] (E5 F5)[I] G5 [1st]')).toEqual([
      [{ string: 3, position: 3 }],
      [{ string: 1, position: 3 }],
      [{ string: 1, position: 3 }],
      [{ string: 2, position: 1 }],
    ]);
    expect(pins('keep: II no open strings\nE5 [open]')).toEqual([[{ manner: 'open' }]]);
  });

  it('names a string for single notes only', () => {
    expect(pins('keep: II 3rd\nD5+A5')).toEqual([[{ position: 3 }, { position: 3 }]]);
  });

  it('is obeyed by the solver', () => {
    const rocking = '1/16 G4 A4 B4 A4 G4 A4 B4 A4';
    expect(fingerings(reading(rocking)).join(' ')).toContain('open');
    expect(fingerings(reading(`keep: no open strings\n${rocking}`)).join(' ')).not.toContain('open');
    expect(fingerings(reading('keep: III\n1/4 D5 E5 F#5')).every((one) => one.startsWith('III'))).toBe(true);
  });

  it('is proposed in its own words', () => {
    const { node } = parse('keep: fre').lines[0]!;
    expect(node.problems.map(({ code, fixes }) => [code, fixes[0]?.title])).toEqual([['setting-value', 'Write free']]);
  });

  it('is one string, one position', () => {
    const { found, expected } = problemsOf('keep: II ^III^\nD5');
    expect(found.map(({ code, span }) => [code, `${span.start}-${span.end}`])).toEqual([['setting-value', expected[0]]]);
    expect(found[0]!.message).toContain('a string has been given already');
  });
});
