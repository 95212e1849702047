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
    ['B flat major', 'Bb3+F4+D5+Bb5', 'IV 2 III 2 II 3 I 4'],
    ['A flat major, one finger over two strings', 'Ab3+Eb4+C5+Ab5', 'IV 1 III 1 II 2 I 3'],
    ['B major', 'B3+F#4+D#5+B5', 'IV 2 III 2 II 3 I 4'],
    ['G major on B, one finger over the middle strings', 'B3+G4+D5+B5', 'IV 2 III 3 II 3 I 4'],
    ['D major on A, one finger over the upper strings', 'A3+F#4+D5+A5', 'IV 1 III 2 II 3 I 3'],
    ['C major over an open G', 'G3+E4+C5+G5', 'IV 0 III 1 II 2 I 2'],
    ['C major on three strings', 'C4+G4+E5', 'IV 3 III 3 II 4'],
    ['D minor', 'D4+A4+F5', 'III 0 II 0 I 1'],
    ['F major in thirds and sixths', 'F4+C5+A5', 'III 2 II 2 I 3'],
    ['A minor', 'A3+E4+C5', 'IV 1 III 1 II 2'],
    ['a diminished chord, its fingers closed up', 'E4+Bb4+G5', 'III 2 II 1 I 3'],
    ['C major, too wide for the first position', 'C4+G4+E5+C6', 'IV 2 III 2 II 3 I 4'],
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

  it('a prelude in chords and runs stays in the first position where the chords lie there', () => {
    const prelude =
      'key: G minor\nmeter: 4/4\ntempo: 1/4 = 44\n1/4 G3+D4+Bb4+G5 1/16 F5 Eb5 D5 C5 Bb4 A4 G4 F#4 1/4 G3+D4+Bb4 | 1/4 C4+G4+Eb5 1/16 D5 C5 Bb4 A4 1/2 D4+A4+F#5 ||';
    const solution = solved(prelude);
    expect(solution.unplayables).toEqual([]);
    expect(solution.events.map((one) => one?.fingering.hand.position)).toEqual(solution.events.map(() => 1));
    expect(fingerings(solution).slice(9, 11)).toEqual(['IV 0 III 0 II 1', 'IV 3 III 3 II 4']);
  });

  /** One finger in two places: the lower two notes are set, then it moves. Common practice, no source. */
  it.each([
    ['second finger on two strings with the first between', 'G3+F4+B4+G5', 'IV 0 III 2 II 1 I 2'],
    ['first finger on the outer strings', 'G#3+D4+B4+F5', 'IV 1 III 0 II 2 I 1'],
  ])('%s: set in two halves', (_, chord, fingering) => {
    const solution = solved(`1/2 ${chord}`);
    expect(fingerings(solution)).toEqual([fingering]);
    expect(solution.events[0]?.fingering).toMatchObject({ breaking: '2+2', inHalves: true });
  });

  it('the bow breaks four notes 2+2, three as they sound best, any as a hint asks', () => {
    const broken = (text: string) => solved(text).events[0]?.fingering;
    expect(broken('1/2 G3+D4+B4+G5')).toMatchObject({ breaking: '2+2' });
    expect(broken('1/2 G3+D4+B4+G5')?.inHalves).toBeUndefined();
    expect(broken('p 1/2 D4+A4+F#5')?.breaking).toBe('1+2');
    expect(broken('tempo: 1/4 = 100\nff 1/8 D4+A4+F#5')?.breaking).toBe('together');
    expect(broken('1/2 D4+A4+F#5 [2+1]')?.breaking).toBe('2+1');
    expect(broken('1/2 (D4+A4+F#5)[together]')?.breaking).toBe('together');
    expect(broken('1/2 D4+A4')?.breaking).toBeUndefined();
  });

  it.each([
    ['1/2 G3+D4+B4+G5 [together]', 'four strings at once'],
    ['1/2 G3+D4+B4+G5 [1+2]', 'for 3 notes'],
    ['1/2 G3+D4 [1+2]', 'these are two'],
    ['1/2 G3 [2+2]', 'this is one note'],
  ])('%s can not be', (text, why) => {
    const { problems } = resolve(parse(text));
    expect(problems.map(({ code }) => code)).toEqual(['hint-contradiction']);
    expect(problems[0]?.message).toContain(why);
  });

  it('all at once, no finger is on both sides of a string that must sound lower', () => {
    const [one] = solved('1/4 G3+F4+B4 [together]+G5'.replace('+G5', '')).events;
    expect(one?.fingering.inHalves).toBeUndefined();
    expect(fingerings(solved('1/2 G#3 [1]+D4+B4+F5 [1]'))).toEqual(['IV 1 III 0 II 2 I 1']);
    expect(solved('1/2 G#3 [1]+D4+B4+F5 [1]').events[0]?.fingering.inHalves).toBe(true);
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
