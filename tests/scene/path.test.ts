import { describe, expect, test } from 'vitest';
import { drawPath, eventNear } from '../../server/scene/path/path';
import { passageOf } from './solved';

const SIZE = { width: 600, height: 120 };

describe('the path of the hand', () => {
  const passage = passageOf('meter: 4/4\n1/4 G3 A4[II] E5 B5 | D6o E5<>A5 A5+F#5 C2 |');

  test('has every event at its time, from left to right', () => {
    const { xs } = drawPath(passage, SIZE);
    expect(xs).toHaveLength(passage.events.length);
    expect([...xs].sort((a, b) => a - b)).toEqual(xs);
    expect(xs.every((x) => x >= 0 && x <= SIZE.width)).toBe(true);
  });

  test('goes to the event nearest to a press', () => {
    const { xs } = drawPath(passage, SIZE);
    for (const [index, x] of xs.entries()) expect(eventNear(xs, x + 1)).toBe(index);
  });

  test('names strings, positions and bars, and marks what cannot be played', () => {
    const { svg } = drawPath(passage, SIZE);
    for (const word of ['>IV<', '>II<', '>I<', '>1st<', '>3rd<', '>2<', '>?<']) expect(svg).toContain(word);
    expect(svg).not.toMatch(/NaN|undefined|Infinity| style=/);
  });

  test('a dot for every finger: higher on the string is higher in the picture', () => {
    const { svg } = drawPath(passageOf('1/4 B4 [II 1] A5 [II]'), SIZE);
    const [low, high] = [...svg.matchAll(/cy="([\d.]+)"/g)].map(([, y]) => Number(y));
    expect(high).toBeLessThan(low!);
  });

  test('an empty passage is an empty picture', () => {
    expect(drawPath({ ...passage, events: [], bars: [] }, SIZE).xs).toEqual([]);
  });
});
