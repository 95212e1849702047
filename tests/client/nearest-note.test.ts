import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestNote } from '../../client/preview/nearest-note';
import { scenePlaces } from './scene-places';

const TEXT = `// two passages
passage: Buoy
1/4 D5 E5 |
F#5 G5 ||

passage: Bell
1/2 A5
`;
const scene = scenePlaces(TEXT);

/** What the note nearest to `|` in the line reads. */
function nearest(line: number, character: number): string | undefined {
  const at = nearestNote(scene, { line, character });
  return at && scene.passages[at.passage]?.events[at.event]?.written;
}

describe('the note nearest to the cursor', () => {
  it('is the one it stands on, up to just past its last character', () => {
    expect(nearest(2, 4)).toBe('D5');
    expect(nearest(2, 5)).toBe('D5');
    expect(nearest(2, 6)).toBe('D5');
    expect(nearest(2, 7)).toBe('E5');
    expect(nearest(2, 9)).toBe('E5');
  });

  it('is on the cursor’s own line before any other', () => {
    expect(nearest(2, 0)).toBe('D5');
    expect(nearest(2, 60)).toBe('E5');
    expect(nearest(3, 0)).toBe('F#5');
  });

  it('is the first one below, on a line without notes', () => {
    expect(nearest(0, 3)).toBe('D5');
    expect(nearest(4, 0)).toBe('A5');
    expect(nearest(5, 8)).toBe('A5');
  });

  it('is the last one, past the last line with notes', () => {
    expect(nearest(7, 0)).toBe('A5');
    expect(nearest(400, 0)).toBe('A5');
  });

  it('is none in a scene without notes', () => {
    expect(nearestNote(scenePlaces('// nothing yet'), { line: 0, character: 0 })).toBeUndefined();
  });

  it('is found for any place, and is the note itself inside every note', () => {
    fc.assert(
      fc.property(fc.nat(12), fc.nat(120), (line, character) => {
        const at = nearestNote(scene, { line, character });
        const inside = scene.passages.flatMap(({ events }, passage) =>
          events.flatMap(({ range: { start, end } }, event) =>
            start.line === line && start.character <= character && character < end.character ? [{ passage, event }] : [],
          ),
        );
        expect(at).toBeDefined();
        if (inside[0]) expect(at).toEqual(inside[0]);
      }),
    );
  });
});
