import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { resolve } from '../../server/passage/resolve';
import { NAT } from '../../server/solver/cost';
import type { Solution } from '../../server/solver/solution';
import { createSolver } from '../../server/solver/solve';
import { event, note, passage, setup } from './build';
import { allPaths, steps } from './oracle';

function solved(text: string): Solution {
  const { passages, problems } = resolve(parse(text));
  expect(problems).toEqual([]);
  const [first] = passages;
  if (!first) throw new Error('no passage');
  return createSolver().solve(first);
}

/** String and finger of every note, the lowest first: `IV 0 III 0 II 1`. */
function fingerings({ events }: Solution): readonly string[] {
  return events.map((one) =>
    (one?.fingering.ways ?? []).map((way) => `${way.stringName} ${way.kind === 'open' ? 0 : way.stop?.finger}`).join(' '),
  );
}

describe('chords of three and four notes', () => {
  /** What every handbook of the instrument sets under the hand in first position. Common practice, no source. */
  it.each([
    ['G major over all strings', 'G3+D4+B4+G5', 'IV 0 III 0 II 1 I 2'],
    ['three notes on two open strings', 'G3+D4+B4', 'IV 0 III 0 II 1'],
    ['D major', 'D4+A4+F#5', 'III 0 II 0 I 1'],
    ['A major, one finger over two strings', 'A3+E4+C#5+A5', 'IV 1 III 1 II 2 I 3'],
    ['E major', 'E4+B4+G#5', 'III 1 II 1 I 2'],
  ])('%s', (_, chord, fingering) => {
    expect(fingerings(solved(`1/2 ${chord}`))).toEqual([fingering]);
  });

  it('a theme in chords is played throughout, every note on a string of its own, no finger in two places', () => {
    const theme =
      'key: D minor\nmeter: 3/4\ntempo: 1/4 = 60\n1/4 D4+A4+F5 1/2 D4+A4+F5 | 1/4 G3+D4+Bb4+G5 1/2 E4+Bb4+G5 | 1/4 A3+E4+C#5+A5 1/2 A3+E4+C#5+G5 | 3/4 D4+A4+F5 ||';
    const solution = solved(theme);
    expect(solution.unplayables).toEqual([]);
    for (const one of solution.events) {
      const { ways } = one!.fingering;
      expect(new Set(ways.map(({ string }) => string)).size).toBe(ways.length);
      const places = new Map<unknown, number>();
      for (const { stop } of ways) {
        if (!stop) continue;
        const known = places.get(stop.finger);
        if (known !== undefined) expect(Math.abs(known - stop.mm)).toBeLessThan(4);
        places.set(stop.finger, stop.mm);
      }
    }
  });

  it('hints of one note bind the whole chord', () => {
    expect(fingerings(solved('1/2 G3+D4+B4+G5 [3]'))).toEqual(['IV 0 III 0 II 2 I 3']);
    expect(fingerings(solved('1/2 D4 [III]+A4 [II 0]+F#5 [2]'))).toEqual(['III 0 II 0 I 2']);
  });

  it('what no hand can set says why', () => {
    expect(solved('1/2 G3+A3+B3').unplayables[0]?.reason.kind).toBe('same-string');
    expect(solved('1/2 G3+D4+A4+E7').unplayables).toEqual([]);
    expect(solved('1/2 B3+F#4+D5+F7').unplayables[0]?.reason.kind).toBe('stretch');
  });

  it('is the least of all paths listed', () => {
    const chord = event([note('G3'), note('D4'), note('B4')], { seconds: 0.5 });
    const others = [
      event([note('B4')], { seconds: 0.3 }),
      event([note('A3'), note('E4'), note('C#5'), note('A5')], { seconds: 0.6 }),
    ];
    const solution = createSolver().solve(passage([chord, ...others], setup()));
    expect(solution.unplayables).toEqual([]);
    expect(Math.round(solution.cost * NAT)).toBe(allPaths(steps(solution))[0]?.cost);
  });
});
