import { describe, expect, it } from 'vitest';
import { reading } from '../support/reading';
import { GOOD } from './good-passages';

const title = (text: string) => /^passage: (.*)$/m.exec(text)?.[1] ?? text;
const told = (text: string) =>
  reading(text)
    .problems.filter(({ severity }) => severity !== 'hint')
    .map(({ code, message }) => `${code}: ${message}`);

describe('common practice, no source: nothing is wrong with a good passage', () => {
  it.each(GOOD.map((text) => [title(text), text] as const))('%s', (_, text) => {
    expect(told(text)).toEqual([]);
  });

  it('and the same passages at eight times the tempo are not all so', () => {
    const faster = GOOD.map((text) =>
      text.replace(/^tempo: 1\/4 = (\d+)$/m, (_, bpm: string) => `tempo: 1/4 = ${8 * Number(bpm)}`),
    );
    expect(faster.filter((text) => told(text).length > 0).length).toBeGreaterThan(GOOD.length / 3);
  });
});
