import { describe, expect, test } from 'vitest';
import { reasonFor } from '../../server/scene/reason';
import { ornamentOf } from '../../server/solver/ornament';
import { createSolver } from '../../server/solver/solve';
import { waysOf } from '../../server/solver/ways';
import { perform } from '../common-practice/played';
import { passageOf } from '../exchange/passages';
import { event, note, setup } from './build';

const solver = createSolver();
const solved = (text: string) => solver.solve(passageOf(text));

/** Cost and finger of an ornament on each way of a note, by `II 3`. */
function on(pitch: string, ornament: 'trill' | 'plucked', fifths = 0, made = setup(), seconds = 1) {
  const asked = note(pitch);
  const spec = event([asked], { ornament, seconds });
  return new Map(
    waysOf(asked, made).map((way) => {
      const string = ['I', 'II', 'III', 'IV'][way.string];
      return [`${string} ${way.stop?.finger ?? way.touch?.finger ?? 0}`, ornamentOf(way, spec, made, fifths)];
    }),
  );
}

/** Common practice, no source: what the trade teaches of trills, in every method. */
describe('a trill', () => {
  test('is struck by the next finger, and by no other where that one can reach', () => {
    const trills = on('E5', 'trill');
    expect([1, 2, 3].map((finger) => trills.get(`II ${finger}`)?.finger)).toEqual([2, 3, 4]);
    expect(trills.get('II 1')?.cost).toBe(0);
  });

  test('has no finger above the fourth, and none on a harmonic', () => {
    expect(on('E5', 'trill').get('II 4')?.finger).toBeUndefined();
    const asked = note('A5o');
    const spec = event([asked], { ornament: 'trill' });
    for (const way of waysOf(asked, setup())) expect(ornamentOf(way, spec, setup(), 0)?.finger).toBeUndefined();
  });

  test('on an open string costs more than by neighbouring fingers, less than without a finger', () => {
    const trills = on('A4', 'trill');
    const [open, stopped, fourth] = ['II 0', 'III 1', 'III 4'].map((way) => trills.get(way)?.cost ?? Number.NaN);
    expect(open).toBeGreaterThan(stopped as number);
    expect(open).toBeLessThan(fourth as number);
  });

  test('tires the fourth finger the more the longer it is', () => {
    const cost = (seconds: number) => on('D5', 'trill', 0, setup(), seconds).get('II 3')?.cost ?? Number.NaN;
    expect(cost(0.2)).toBeLessThan(cost(0.8));
    expect(cost(1)).toBe(cost(5));
  });

  test('goes to the next note of the key: on the cello a whole tone takes every second finger, a half tone the next', () => {
    const cello = setup({ family: 'cello' });
    // E3 to F3 is a half tone in C major; D3 to E3 a whole tone.
    expect(on('E3', 'trill', 0, cello).get('II 1')?.finger ?? on('E3', 'trill', 0, cello).get('III 1')?.finger).toBe(2);
    expect(on('F3', 'trill', 0, cello).get('II 2')?.finger).toBe(4);
  });

  test('goes where its accidental says, in any key', () => {
    const cello = setup({ family: 'cello' });
    const upper = (fifths: number, alter?: number) => {
      const asked = note('E3');
      const spec = event([asked], { ornament: 'trill', seconds: 1, ...(alter !== undefined && { upper: alter }) });
      const way = waysOf(asked, cello).find(({ stringName, stop }) => stringName === 'II' && stop?.finger === 1);
      return way && ornamentOf(way, spec, cello, fifths)?.finger;
    };
    // On the cello a half tone is the next finger, a whole tone the one after it.
    expect([upper(0), upper(0, 1), upper(0, 0)]).toEqual([2, 3, 2]);
    expect([upper(1), upper(1, 1), upper(1, 0)]).toEqual([3, 3, 2]);
  });

  test('keeps off the fourth finger and off open strings in a passage', () => {
    const { played } = first('key: D major\ntempo: 1/4 = 72\n1/4 C#5 D5 trill E5 D5 C#5 D5 trill A4 D5');
    const trilled = [played[2], played[6]].map((p) => p?.notes[0]?.finger);
    for (const finger of trilled) expect([1, 2, 3]).toContain(finger);
  });

  test('obeys a hint all the same, and says that no finger is free', () => {
    const solution = solved('key: D major\n1/4 D5 trill E5 [II 4] D5');
    expect(solution.events[1]?.fingering.ways[0]?.stop?.finger).toBe(4);
    expect(reasonFor(solution, 1)).toContain('with no finger free to trill');
    expect(solution.events[1]?.terms.ornament).toBeGreaterThan(0);
  });

  test('says with which finger', () => {
    expect(reasonFor(solved('key: D major\n1/4 D5 [II 1] trill E5 [II 2] D5'), 1)).toContain('trilled with the third finger');
  });
});

/** Common practice, no source: a fingered tremolo is held as a trill is, both fingers over one string. */
describe('two notes by turns', () => {
  const fingers = (text: string) =>
    solved(text).events.map((event) =>
      event?.fingering.ways.map((way) => `${way.stringName} ${way.stop?.finger ?? 0}`).join('+'),
    );

  test('lie on one string where the hand can span them there, though the first position has them on two', () => {
    expect(fingers('1/2 fingered-tremolo(D5 F5)')).toEqual(['II 1', 'II 3']);
    expect(fingers('1/2 fingered-tremolo(A5 C6)')).toEqual(['I 1', 'I 3']);
    expect(new Set(fingers('1/8 A4 B4 C5 D5 F5 E5 D5 C5').map((way) => way?.split(' ')[0])).size).toBe(2);
  });

  test.each([
    ['violin', '1/2 fingered-tremolo(G4 Bb4)'],
    ['viola', '1/2 fingered-tremolo(1/32 E4 G4) fingered-tremolo(A4 C5)'],
    ['cello', '1/2 fingered-tremolo(E3 G3) fingered-tremolo(C3 D3)'],
    ['violin', '1/2 fingered-tremolo(D4+B4 F#4+D5)'],
    ['violin', '1/2 fingered-tremolo(G4 E5)'],
  ])('want two fingers and a hand at rest: %s %s', (instrument, music) => {
    const { events } = solved(`instrument: ${instrument}\n${music}`);
    for (let second = 1; second < events.length; second += 2) {
      const [one, two] = [events[second - 1]?.fingering, events[second]?.fingering];
      expect(two?.hand.mm).toBe(one?.hand.mm);
      const stopped = (fingering: typeof one) => fingering?.ways.flatMap(({ stop }) => (stop ? [stop.finger] : [])) ?? [];
      for (const finger of stopped(one)) expect(stopped(two)).not.toContain(finger);
    }
  });

  test('cost what their terms come to, found by the same path whether a solver is new or has met the notes without the tremolo', () => {
    const music = 'A4 fingered-tremolo(G4 B5) E5 fingered-tremolo(D4+B4 F#4+D5)';
    const used = createSolver();
    used.solve(passageOf(`1/4 ${music.replaceAll('fingered-tremolo', 'slur')}`));
    const [again, fresh] = [used, createSolver()].map((one) => one.solve(passageOf(`1/4 ${music}`)));
    expect(again?.cost).toBe(fresh?.cost);
    const terms = fresh?.events.flatMap((event) => Object.values(event?.terms ?? {})).reduce((sum, each) => sum + each, 0);
    expect(terms).toBeCloseTo(fresh?.cost ?? 0, 6);
  });

  test('say with which finger, and what they cost', () => {
    const solution = solved('1/2 fingered-tremolo(D5 [III] F5 [II])');
    expect(solution.events[1]?.terms.ornament).toBeGreaterThan(0);
    expect(reasonFor(solved('1/2 fingered-tremolo(A5 C6)'), 1)).toContain('by turns with the first finger');
    expect(reasonFor(solved('1/2 fingered-tremolo(A4 [II 0] C5)'), 1)).toContain('by turns with the open string');
  });
});

describe('a note plucked by the left hand', () => {
  test('wants a finger above the one that stops; from the open string any does', () => {
    const plucked = on('A4', 'plucked');
    expect(plucked.get('II 0')).toEqual({ finger: 1, cost: 0 });
    expect(plucked.get('III 1')?.finger).toBe(2);
    expect(plucked.get('III 4')?.finger).toBeUndefined();
    const { played } = first('tempo: 1/4 = 72\n1/4 A4 B4 pizz-left E5 B4 A4');
    expect(played[2]?.notes[0]?.finger).not.toBe(4);
  });
});

function first(text: string) {
  return { played: perform(text).played };
}
