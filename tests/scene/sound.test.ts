import { describe, expect, test } from 'vitest';
import { type Cue, type PlayOrder, schedule } from '../../server/scene/sound/schedule';
import { countIn, timelineOf } from '../../server/scene/sound/timeline';
import { renderTone } from '../../server/scene/sound/tone';
import { lighthouse } from './lighthouse';
import { passageOf } from './solved';

const RATE = 44100;
const passage = lighthouse();

/** How strongly a frequency sounds between two times, by a windowed Fourier sum. */
function strength(sound: Float32Array, hz: number, from: number, to: number): number {
  const [a, b] = [Math.floor(from * RATE), Math.floor(to * RATE)];
  let [re, im] = [0, 0];
  for (let i = a; i < b; i++) {
    const weight = 0.5 - 0.5 * Math.cos((2 * Math.PI * (i - a)) / (b - a));
    re += (sound[i] as number) * weight * Math.cos((2 * Math.PI * hz * i) / RATE);
    im += (sound[i] as number) * weight * Math.sin((2 * Math.PI * hz * i) / RATE);
  }
  return (4 * Math.hypot(re, im)) / (b - a);
}

/** Of these many cents off, the one that sounds strongest. */
function centsOff(sound: Float32Array, hz: number, from: number, to: number): number {
  const tried = Array.from({ length: 61 }, (_, index) => index - 30);
  return tried.reduce(
    (best, cents) =>
      strength(sound, hz * 2 ** (cents / 1200), from, to) > strength(sound, hz * 2 ** (best / 1200), from, to) ? cents : best,
    0,
  );
}

/** How much sharper partial `n` is than n times the first, for a string of 328 mm whose B was measured at 320. */
function stiff(measured: number, n: number): number {
  const b = measured * (320 / 328) ** 4;
  return Math.sqrt((1 + b * n * n) / (1 + b));
}

describe('tone', () => {
  // Frequencies in the just series over open strings tuned in pure fifths from A4 = 440 Hz (ISO 16): exact arithmetic.
  test.each([
    // Partial n of a stiff string: f_n = n f_0 sqrt(1 + B n^2); B of D and A as measured at 320 mm: 2.3e-4, 2.1e-4 (Desvages 2018). At 328 mm and
    // the same pitch the tension grows as the square of the length, so B falls as its fourth power (B = pi^3 E r^4 / (4 T L^2), Fletcher 1964).
    ['D6o [III at 1/4]', (440 / 1.5) * 4 * stiff(2.3e-4, 4)],
    ['E6o [II at 1/3]', 440 * 3 * stiff(2.1e-4, 3)],
    ['F#6o [III at 2/5]', (440 / 1.5) * 5 * stiff(2.3e-4, 5)],
    ['A4 [open]', 440],
    ['A5 [II stopped]', 880],
  ])('%s sounds %d Hz, stiffness and all, within 2 cents', (text, hz) => {
    const scene = passageOf(`1/1 ${text}`);
    const note = scene.events[0]!.notes[0]!;
    expect(Math.abs(1200 * Math.log2(note.hz / hz))).toBeLessThan(0.1);
    const sound = renderTone(scene.board, note, 'f', 1, RATE);
    expect(Math.abs(centsOff(sound, hz, 0.3, 0.95))).toBeLessThanOrEqual(2);
  });

  test.each(['A4 [open]', 'A5o [II at 1/2]'])(
    'plucked, %s sounds its pitch and dies away, however long it is written',
    (text) => {
      const scene = passageOf(`pizz 1/1 ${text}`);
      const [event] = scene.events;
      expect(event?.plucked).toBe(true);
      const note = event!.notes[0]!;
      const sound = renderTone(scene.board, note, 'f', 2, RATE, true);
      expect(Math.abs(centsOff(sound, note.hz, 0.15, 0.8))).toBeLessThanOrEqual(3);
      const loud = (from: number) => Math.max(...sound.subarray(from * RATE, (from + 0.1) * RATE).map(Math.abs));
      expect(loud(0.1)).toBeGreaterThan(0.05);
      expect(loud(1.8)).toBeLessThan(loud(0.1) / 20);
    },
  );

  test('a harmonic has its own partial and not the string’s lower ones', () => {
    for (const event of [2, 3, 4, 5, 6]) {
      const note = passage.events[event]!.notes[0]!;
      const sound = renderTone(passage.board, note, 'f', 0.8, RATE);
      const string = note.hz / note.partial;
      const own = strength(sound, string * note.partial, 0.3, 0.75);
      for (let lower = 1; lower < note.partial; lower++)
        expect(strength(sound, string * lower, 0.3, 0.75)).toBeLessThan(own / 20);
    }
  });

  test('a long note goes on at the same pitch and strength, without a seam', () => {
    const note = passage.events[5]!.notes[0]!;
    const sound = renderTone(passage.board, note, 'f', 4, RATE);
    const { hz } = note;
    expect(sound).toHaveLength(4 * RATE);
    const level = [0.5, 1.3, 2.1, 2.9, 3.5].map((from) => strength(sound, hz, from, from + 0.4));
    for (const each of level) expect(each / level[0]!).toBeCloseTo(1, 1);
    expect(Math.abs(centsOff(sound, hz, 1.2, 3.8))).toBeLessThanOrEqual(2);
  });

  test('dynamics are loudness, silence is empty', () => {
    const note = passage.events[0]!.notes[0]!;
    const loud = (dynamic: string) =>
      renderTone(passage.board, note, dynamic, 0.3, RATE).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const levels = ['pp', 'p', 'mp', 'mf', 'f', 'ff'].map(loud);
    expect([...levels].sort((a, b) => a - b)).toEqual(levels);
    expect(renderTone(passage.board, note, 'f', 0, RATE)).toHaveLength(0);
  });
});

const BASE: PlayOrder = { from: 0, to: 99, loop: false, speed: 1, click: false, countIn: false };
const cues = (text: string, order: Partial<PlayOrder> = {}, most = 200): Cue[] => {
  const of = passageOf(text);
  const out: Cue[] = [];
  for (const cue of schedule(of, { ...BASE, to: of.events.length - 1, ...order })) if (out.push(cue) >= most) break;
  return out;
};
const times = (list: readonly Cue[], kind: Cue['kind']) =>
  list.filter((cue) => cue.kind === kind).map(({ at }) => Number(at.toFixed(6)));

describe('schedule', () => {
  const TEXT = 'tempo: 1/4 = 120\nmeter: 4/4\n1/4 B4 C5 rest D5 | 1/2 E5 B4 |';

  test('notes fall where tempo and rests put them', () => {
    // At 120 to the quarter a quarter lasts half a second.
    expect(times(cues(TEXT), 'note')).toEqual([0, 0.5, 1.5, 2, 3]);
    expect(times(cues(TEXT), 'reach')).toEqual([0, 0.5, 1.5, 2, 3]);
    expect(times(cues(TEXT), 'end')).toEqual([4]);
  });

  test('half as fast: everything twice as far apart and as long, nothing else changed', () => {
    const slow = cues(TEXT, { speed: 0.5, click: true });
    const fast = cues(TEXT, { click: true });
    expect(slow.map(({ at }) => at)).toEqual(fast.map(({ at }) => 2 * at));
    expect(slow.map((cue) => cue.kind === 'note' && cue.event)).toEqual(fast.map((cue) => cue.kind === 'note' && cue.event));
  });

  test('a choice of notes repeats without a gap', () => {
    const loop = cues(TEXT, { from: 1, to: 2, loop: true }, 9);
    expect(times(loop, 'note')).toEqual([0, 1, 1.5, 2.5]);
  });

  test('a repeated passage comes in where the player is and goes round from its start', () => {
    const loop = cues(TEXT, { start: 3, loop: true }, 6).filter((cue) => cue.kind === 'reach');
    expect(loop.map((cue) => cue.kind === 'reach' && cue.event)).toEqual([3, 4, 0]);
  });

  test('the second of two notes by turns played alone is heard in its own time', () => {
    const alone = cues('tempo: 1/4 = 60\n1/2 fingered-tremolo(1/16 A4 C5)', { from: 1 });
    expect(times(alone, 'note')).toEqual([0.25, 0.75]);
    expect(times(alone, 'end')).toEqual([1]);
  });

  test('clicks fall on the beats, the first of a bar strong', () => {
    const clicks = cues(TEXT, { click: true }).filter((cue) => cue.kind === 'click');
    expect(clicks.map(({ at }) => at)).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5]);
    expect(clicks.map((cue) => cue.kind === 'click' && cue.strong)).toEqual([
      true,
      false,
      false,
      false,
      true,
      false,
      false,
      false,
    ]);
  });

  test('a silent bar is clicked through, in the tempo it stands in', () => {
    const of = passageOf('meter: 2/4\ntempo: 1/4 = 120\n1/4 rest B4 |\ntempo: 1/4 = 60\n1/2 rest | 1/4 rest C5 |');
    expect(timelineOf(of).clicks.map(({ at }) => at)).toEqual([0, 0.5, 1, 2, 3, 4]);
    expect(timelineOf(of).events).toEqual([
      { at: 0, end: 0.5 },
      { at: 0.5, end: 4 },
      { at: 4, end: 5 },
    ]);
  });

  test('one bar is counted in, then everything begins', () => {
    const counted = cues(TEXT, { countIn: true });
    expect(times(counted, 'click')).toEqual([0, 0.5, 1, 1.5]);
    expect(times(counted, 'note')[0]).toBe(2);
  });

  test('in compound time three are counted as one', () => {
    const of = passageOf('tempo: 3/8 = 60\nmeter: 6/8\n1/8 B4 C5 D5 E5 F5 G5 |');
    expect(countIn(of, 0)).toEqual({ beats: 2, apart: 1 });
    expect(timelineOf(of).clicks.map(({ at }) => at)).toEqual([0, 1]);
  });

  test('a held note sounds once, as long as both', () => {
    const held = cues('tempo: 1/4 = 60\n1/4 B4_ B4 C5').filter((cue) => cue.kind === 'note');
    expect(held.map((cue) => cue.kind === 'note' && [cue.event, cue.seconds])).toEqual([
      [0, 2],
      [2, 1],
    ]);
  });

  test('nothing to play ends at once', () => {
    expect(cues('1/4 B4', { from: 5, to: 9 })).toEqual([{ kind: 'end', at: 0 }]);
  });
});
