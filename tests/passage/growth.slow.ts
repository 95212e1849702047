import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import type { Tree } from '../../grammar/tree';
import { resolve } from '../../server/passage/resolve';
import { leastWork } from '../support/least-work';

describe('work grows with the text, not faster', () => {
  /** Processor time of eight times the text in times of the text alone, each the least of five. Linear work gives 8, quadratic 64. */
  function growth(make: (size: number) => string, size: number): number {
    const least = (tree: Tree) => leastWork(5, () => resolve(tree));
    const [once, eight] = [parse(make(size)), parse(make(8 * size))];
    least(once);
    return least(eight) / least(once);
  }

  it.each([
    ['ever new denominators', (size: number) => Array.from({ length: size }, (_, index) => `1/${index + 2} D5`).join(' ')],
    ['wrong bars on one line', (size: number) => `meter: 4/4\nD5 | ${'D5 | '.repeat(size)}`],
    ['unknown motifs', (size: number) => `motif wave = D5\n${'gull |\n'.repeat(size)}`],
    ['broken ties', (size: number) => 'D5_ E5\n'.repeat(size)],
    ['settings in the wrong place', (size: number) => `D5\n${'hand: small\n'.repeat(size)}`],
    [
      'wrong motifs and their uses',
      (size: number) => Array.from({ length: size }, (_, index) => `motif n${index} = E5<>G#6\nn${index}`).join('\n'),
    ],
  ])('%s', (_, make) => {
    expect(growth(make, 1000)).toBeLessThan(32);
  });
});
