import { describe, expect, it } from 'vitest';
import { eventsOf, places, problemsOf, read } from './reading';

const pins = (text: string) => eventsOf(text).map(({ spec }) => spec.notes.map((note) => note.pins));

describe('hints behind a parenthesis', () => {
  it('hold for every note in it, in strokes and double stops too', () => {
    expect(pins('(D5 slur(E5 F5) D4+B4)[3rd] G5')).toEqual([
      [{ position: 3 }],
      [{ position: 3 }],
      [{ position: 3 }],
      [{ position: 3 }, { position: 3 }],
      [{}],
    ]);
  });

  it('give way, kind by kind, to what stands nearer to the note', () => {
    expect(pins('((D5 E5 [III])[3rd] F5)[II 5th]')).toEqual([
      [{ position: 3, string: 2 }],
      [{ string: 3, position: 3 }],
      [{ string: 2, position: 5 }],
    ]);
    expect(pins('(E5<>A5 [2-4] F5<>Bb5)[1-4]')).toEqual([
      [{ fingers: { stop: 2, touch: 4 } }],
      [{ fingers: { stop: 1, touch: 4 } }],
    ]);
    // A hint of another kind that can't hold beside the note's own gives way as well.
    expect(pins('(A4 [open] B4)[1]')).toEqual([[{ manner: 'open' }], [{ finger: 1 }]]);
    expect(problemsOf('(A4 [open] B4)[1]').found).toEqual([]);
  });

  it('leave the bow alone', () => {
    expect(eventsOf('(D5 E5)[II] F5').map(({ spec }) => spec.slurred)).toEqual([false, false, false]);
    expect(eventsOf('slur(D5 (E5 F5)[II])').map(({ spec }) => spec.slurred)).toEqual([true, true, false]);
  });

  it('reach into motifs, and a motif keeps those of its own', () => {
    const text = 'motif wave = (D5 E5)[II]\n(wave F5)[3rd]';
    expect(pins(text)).toEqual([[{ string: 2, position: 3 }], [{ string: 2, position: 3 }], [{ position: 3 }]]);
    expect(read(text).problems).toEqual([]);
  });

  it.each([
    ['a circle can not be stopped', '(A5 D6o E6o)[^stopped^]', 1],
    ['nor be played with a thumb there is none of', '(A5 B5)[^T^]', 1],
    ['in a motif it is told there, and at the use', 'motif wave = (A5 D6o)[^stopped^]\nwave', 1],
  ])('are told once where a note as written rules them out: %s', (_, fixture, count) => {
    const { found, expected } = problemsOf(fixture);
    const here = found.filter(({ code }) => code === 'hint-contradiction');
    expect(here).toHaveLength(count);
    expect(places(here)).toEqual(expected);
    expect(here[0]!.message).toContain("can't be met for");
  });
});
