import { describe, expect, test } from 'vitest';
import { framesOf } from '../../server/listening/frames';
import { hear } from '../../server/listening/listen';
import { passageOf } from '../scene/solved';
import { Chance } from './chance';
import { type Performance, type Played, perform } from './performance';
import { record } from './synthesis';
import { soundOf } from './take';

const TEXT = 'passage: Slipway\ntempo: 1/4 = 80\nmeter: 4/4\n1/4 D6o E6o F#6o A6o |\nE5<>A5 F#5<>B5 G5 A5 ||\n';
const slipway = passageOf(TEXT);
const RATE = 44_100;

/** The passage played without a fault, then changed. */
function played(change: (performance: Performance) => Performance = (same) => same, seed = 5): Performance {
  return change(perform(new Chance(seed), slipway, { faults: 0, vibrato: false, falseStart: false, takes: 1, drift: 0 }));
}

/** What goes wrong in which of its notes, all in one take. */
const WRONG: Readonly<Record<number, (note: Played) => Partial<Played>>> = {
  1: ({ hz }) => ({ partial: 2, hz: (hz / 3) * 2 }),
  3: () => ({ hz: 0 }),
  4: () => ({ delay: 0.22 }),
  5: ({ hz }) => ({ partial: 1, hz: hz / 4 }),
  7: ({ hz, cents }) => ({ cents: cents + 30, hz: hz * 2 ** (30 / 1200) }),
};

async function heard(performance: Performance, method: 'string' | 'partials' = 'partials', scene = slipway, noise = 20) {
  const samples = record(new Chance(9), slipway.board, performance, { rate: RATE, method, noise });
  return hear(await framesOf(soundOf(samples, RATE)), scene);
}

describe.each(['string', 'partials'] as const)('a take made by %s', { timeout: 60_000 }, (method) => {
  test('without a fault every note spoke, in tune and in time', async () => {
    const performance = played();
    const { takes, a4, tunedBy, refused } = await heard(performance, method);
    expect(refused).toBeUndefined();
    expect(takes).toHaveLength(1);
    expect(takes[0]?.whole).toBe(true);
    expect(takes[0]?.notes.map(({ verdict }) => verdict)).toEqual(Array(8).fill('spoke'));
    expect(tunedBy).toBe('fixed');
    expect(Math.abs(1200 * Math.log2(a4 / 440) - performance.tuning)).toBeLessThan(2);
    for (const [i, note] of takes[0]!.notes.entries()) {
      expect(Math.abs(note.onset - performance.played[i]!.at)).toBeLessThan(0.05);
      expect(Math.abs(note.intonation!.cents - performance.played[i]!.cents)).toBeLessThan(3);
    }
  });

  test('another partial, a note not played, one too late, a fourth harmonic that breaks into the stopped note two octaves below, one out of tune', async () => {
    const performance = played((whole) => ({
      ...whole,
      played: whole.played.map((note) => ({ ...note, ...WRONG[note.event]?.(note) })),
    }));
    const notes = (await heard(performance, method)).takes.flatMap((take) => take.notes);
    expect(notes.map(({ verdict }) => verdict)).toEqual([
      'spoke',
      'other',
      'spoke',
      'not-heard',
      'late',
      'other',
      'spoke',
      'spoke',
    ]);
    expect(notes[1]?.instead).toMatchObject({ source: 'partial', partial: 2 });
    expect(Math.abs(notes[4]!.late! - 220)).toBeLessThan(80);
    expect(notes[5]?.instead?.source).toBe('stopped');
    expect(slipway.events[5]!.notes[0]!.hz / notes[5]!.instead!.hz).toBeCloseTo(4, 3);
    expect(Math.abs(notes[7]!.intonation!.cents - performance.played[7]!.cents)).toBeLessThan(3);
  });
});

test('a false start is told apart from the take', async () => {
  const performance = perform(new Chance(3), slipway, { faults: 0, vibrato: false, falseStart: true, takes: 1, drift: 0 });
  const { takes } = await heard(performance);
  expect(takes.map(({ whole }) => whole)).toEqual([false, true]);
});

test('another passage is refused, and so is silence', async () => {
  const other = passageOf('tempo: 1/4 = 80\nmeter: 4/4\n1/8 G3 Bb3 C4 Eb4 F4 Ab4 Bb4 C5 | Db5 C5 Bb4 Ab4 1/2 Eb4 ||\n');
  expect((await heard(played(), 'partials', other)).refused).toBe('another');
  const silence = await framesOf(soundOf(new Float32Array(RATE), RATE));
  expect(hear(silence, slipway)).toMatchObject({ refused: 'silent', takes: [] });
  expect(hear(await framesOf(soundOf(new Float32Array(0), RATE)), slipway).takes).toEqual([]);
});

test('with a second player in the background nothing is judged wrongly', async () => {
  const own = record(new Chance(9), slipway.board, played(), { rate: RATE, method: 'partials' });
  const chord = passageOf('tempo: 1/4 = 60\n1/1 C4+Ab4 | Eb4+Bb4 ||');
  const manner = { faults: 0, vibrato: false, falseStart: false, takes: 1, drift: 0 };
  const behind = record(new Chance(11), chord.board, perform(new Chance(4), chord, manner), { rate: RATE, method: 'partials' });
  const both = own.map((value, i) => value + 0.7 * (behind[i] ?? 0));
  const { takes } = hear(await framesOf(soundOf(both, RATE)), slipway);
  const wrong = takes.flatMap(({ notes }) => notes).filter(({ verdict, sure }) => verdict === 'other' && sure > 0.7);
  expect(wrong).toEqual([]);
});
