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

it('an edit in a long file costs at most a twentieth of reading it all', () => {
  const text = Array.from({ length: 1250 }, (_, bar) => `${bar % 2 ? 'A4' : 'G4'} C5 D5 E5 F5 G5 A5 B5 |`).join('\n');
  const tree = parse(text);
  const resolved = resolve(tree);
  const texts = Array.from({ length: 12 }, (_, index) => {
    const at = text.indexOf('E5', Math.floor((text.length * (index + 1)) / 14));
    return parse(`${text.slice(0, at)}C5${text.slice(at + 2)}`, tree);
  });
  const full = leastWork(texts.length, (index) => resolve(texts[index] ?? tree));
  const edit = leastWork(texts.length, (index) => resolve(texts[index] ?? tree, resolved));
  expect(edit).toBeLessThan(full / 20);
});
