import { describe, expect, it } from 'vitest';
import { betweenSemitones, doubt, handLine } from '../../client/webview/measure/reaches';
import { NESTED, REACH } from '../../server/hand/choice';
import { valueFrom } from '../../server/passage/values';

describe('measuring a hand', () => {
  // Derived from the law of the string (a semitone is a factor of 2^(1/12)); a violin's string of 328 mm, first finger two semitones up.
  it.each([
    ['octave frame', 2, 7, 73],
    ['fifth', 2, 9, 97],
    ['minor tenth', 2, 10, 108],
    ['major tenth', 2, 11, 118],
    ['fourth, an octave up', 12, 17, 41],
    ['fifth, an octave up', 12, 19, 55],
  ])('%s', (_, lower, higher, mm) => {
    expect(Math.round(betweenSemitones(328, lower, higher))).toBe(mm);
  });

  it('halves the string at the octave', () => {
    expect(betweenSemitones(690, 0, 12)).toBeCloseTo(345, 9);
  });

  it('doubts exactly what a player file would refuse', () => {
    const pairs = ['1-2', '1-3', '1-4', '2-3', '2-4', '3-4', 'T-1', 'T-2', 'T-3'];
    const sizes = [5, 40, 60, 301];
    let refused = 0;
    for (const one of pairs) {
      for (const two of pairs) {
        if (one === two) continue;
        for (const mm of sizes) {
          const other = 50;
          const here = doubt(one, mm, { [two]: other }, { ...REACH, nested: NESTED });
          const there = valueFrom('hand', handLine(pairs, { [one]: mm, [two]: other }), 'cello');
          expect(`${one} ${mm}, ${two}: ${here !== undefined}`).toBe(`${one} ${mm}, ${two}: ${'faults' in there}`);
          if (here !== undefined) refused++;
        }
      }
    }
    expect(refused).toBeGreaterThan(pairs.length * 2);
  });

  it('writes pairs in their order and leaves out what was not measured', () => {
    expect(handLine(['1-2', '1-3', '1-4'], { '1-4': 98, '1-2': 48 })).toBe('1-2 48, 1-4 98');
    expect(handLine(['1-2'], {})).toBe('');
  });
});
