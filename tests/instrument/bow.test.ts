import { describe, expect, test } from 'vitest';
import { DYNAMICS } from '../../grammar/marks';
import { type BowedNote, bowAdvice, contactPoint, effectiveShare, forceWindow, impedance } from '../../server/instrument/bow';
import { buildInstrument } from '../../server/instrument/build';
import { FAMILIES } from '../../server/instrument/constants';
import { renderString } from '../../server/instrument/waveguide';
import { partials } from './partials';

const violin = buildInstrument({ family: 'violin', tuning: 'fifths', a4: 440 });
const string = violin.strings[1]!;
const open: BowedNote = { family: 'violin', string, length: violin.length, partial: 1 };
const harmonic = (partial: number): BowedNote => ({ ...open, partial });

describe('contact point', () => {
  test('the node nearest the bridge is the dead place, where the partial moves like a string bowed at its end', () => {
    for (let n = 2; n <= 8; n++) {
      const { dead } = contactPoint(harmonic(n));
      expect(dead).toBeCloseTo(328 / n, 9);
      expect(effectiveShare(dead as number, 328, n)).toBeCloseTo(1, 12);
    }
    expect(contactPoint(open).dead).toBeUndefined();
  });
  test('stays between bridge and dead place, in order, even on the shortest string', () => {
    for (const length of [20, 60, 120, 328])
      for (let partial = 1; partial <= 8; partial++) {
        const { nearest, best, farthest } = contactPoint({ ...open, length, partial });
        expect(nearest).toBeGreaterThan(0);
        expect(nearest).toBeLessThanOrEqual(best);
        expect(best).toBeLessThanOrEqual(farthest);
        expect(farthest).toBeLessThan(length / partial);
      }
  });
});

describe('force window', () => {
  test('follows Schelleng: most as speed over beta, least as speed over beta squared', () => {
    const here = forceWindow(open, 30, 0.2);
    const nearer = forceWindow(open, 15, 0.2);
    const faster = forceWindow(open, 30, 0.4);
    expect(nearer.most / here.most).toBeCloseTo(2, 9);
    expect(nearer.least / here.least).toBeCloseTo(4, 9);
    expect(faster.most / here.most).toBeCloseTo(2, 9);
    expect(faster.least / here.least).toBeCloseTo(2, 9);
  });
  test('is open where players bow and closes toward the bridge', () => {
    const usual = forceWindow(open, 30);
    expect(usual.least).toBeLessThan(usual.best);
    expect(usual.best).toBeLessThan(usual.most);
    const close = forceWindow(open, 0.5);
    expect(close.least).toBeGreaterThan(close.most);
  });
  test('derived by hand: an open string of 0.2 kg/s, bowed at a tenth of it with 0.2 m/s and friction falling by half', () => {
    // 2 * 0.2 * 0.2 / (0.1 * 0.5) = 1.6 N; 0.2^2 * 0.2 / (2 * 10 * 0.1^2 * 0.5) = 0.08 N.
    const plain: BowedNote = { ...open, string: { ...string, tension: 40, density: 1 } };
    const { least, most } = forceWindow(plain, 32.8, 0.2);
    expect(most).toBeCloseTo(1.6, 9);
    expect(least).toBeCloseTo(0.08, 9);
  });
  test('the best force is twice as near the most as the least, by ratio; a harmonic asks less of the most', () => {
    for (const distance of [15, 30, 45]) {
      const { least, best, most } = forceWindow(open, distance);
      expect(best / least).toBeCloseTo((most / best) ** 2, 9);
      const light = forceWindow(harmonic(2), distance);
      expect(light.best / light.most).toBeLessThan(best / most);
      expect(light.best).toBeGreaterThanOrEqual(light.least);
    }
  });
  // A. Askenfelt, JASA 86, 1989 (from memory): violinists bow with half a newton to one and a half.
  test.each(['violin', 'viola'] as const)('published: Askenfelt 1989 — usual forces speak on every string of a %s', (family) => {
    const { strings, length } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
    for (const one of strings) {
      const { least, most } = forceWindow({ family, string: one, length, partial: 1 }, length / 12, 0.2);
      expect(least).toBeLessThan(0.5);
      expect(most).toBeGreaterThan(1.5);
    }
  });
  test('every open string has a window at an eighth of it, and heavier strings ask for more', () => {
    for (const family of ['violin', 'viola', 'cello'] as const) {
      const { strings, length } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
      const windows = strings.map((one) => forceWindow({ family, string: one, length, partial: 1 }, length / 8, 0.2));
      for (const { least, most } of windows) {
        expect(least).toBeGreaterThan(0);
        expect(least).toBeLessThan(most);
      }
      expect(windows.at(-1)?.most).toBeGreaterThan(windows[0]?.most as number);
    }
  });
  test('a harmonic at n times the contact point has the window of the open string', () => {
    const { least, most } = forceWindow(open, 32);
    expect(forceWindow(harmonic(4), 8)).toMatchObject({ least, most });
  });
});

/** Nearest to the bridge that players bow, sul ponticello apart, mm. */
const PONTICELLO = { violin: 12, viola: 14, cello: 25 } as const;

/** Naturals 2 to 6 of every string, and every form of artificial harmonic up the string, on three instruments, soft to loud. */
const HARMONICS = (['violin', 'viola', 'cello'] as const).flatMap((family) => {
  const { strings, length: full } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
  const naturals = [2, 3, 4, 5, 6].flatMap((partial) => strings.map((string) => ({ string, length: full, partial })));
  const artificials = [2, 4, 7, 9, 12, 14, 16, 19].flatMap((semitones) =>
    [3, 4, 5, 6].map((partial, i) => ({ string: strings[i]!, length: full * 2 ** (-semitones / 12), partial })),
  );
  return [...naturals, ...artificials].map((one, i) => ({ family, full, dynamic: DYNAMICS[i % DYNAMICS.length]!, ...one }));
});

describe('common practice, no source — how harmonics are bowed', () => {
  test('more than a hundred, so that no string, form or loudness is left out', () =>
    expect(HARMONICS.length).toBeGreaterThan(100));

  test.each(HARMONICS)(
    '$family, partial $partial over $length mm, $dynamic',
    ({ family, full, string, length, partial, dynamic }) => {
      const { contact, place, speed, force, speedRatio } = bowAdvice({ family, string, length, partial }, full, dynamic);
      // Between the bridge, sul ponticello apart, and the end of the fingerboard's neighbourhood.
      expect(contact.nearest).toBeGreaterThanOrEqual(PONTICELLO[family]);
      expect(contact.farthest).toBeLessThanOrEqual(full / 8 + 1e-9);
      // Clear of the node, the more so where the loop leaves the bow a choice; and never to the millimetre.
      const loop = length / partial;
      expect(contact.farthest).toBeLessThan(loop * (loop / 3 > PONTICELLO[family] * 1.3 ? 0.35 : 0.8));
      expect(contact.farthest / contact.nearest).toBeGreaterThan(1.1);
      // Faster and lighter, never slower or firmer; not twice as near the bridge in one stroke.
      expect(['usual', 'nearer', 'bridge']).toContain(place);
      expect(['faster', 'same']).toContain(speed);
      expect(['lighter', 'same']).toContain(force);
      expect(speedRatio).toBeGreaterThanOrEqual(1);
      expect(speedRatio).toBeLessThanOrEqual(2);
    },
  );

  test('an ordinary fourth harmonic is bowed a little nearer the bridge, not at it', () => {
    for (const family of ['violin', 'viola', 'cello'] as const) {
      const { strings, length } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
      for (const one of strings) {
        const { contact, place, speed } = bowAdvice({ family, string: one, length, partial: 4 }, length);
        expect(place).toBe('nearer');
        expect(speed).toBe('faster');
        expect(contact.best).toBeGreaterThan(length / 18);
      }
    }
  });

  test('the higher the partial the nearer; loud nearer than soft', () => {
    const best = [2, 3, 4, 5, 6, 8].map((partial) => contactPoint(harmonic(partial)).best);
    expect(best).toEqual([...best].sort((a, b) => b - a));
    for (const partial of [1, 2, 3, 4, 5])
      expect(contactPoint(harmonic(partial), 'f').best).toBeLessThan(contactPoint(harmonic(partial), 'p').best);
  });
});

describe('published: Schelleng 1973 — within the range the usual forces speak', () => {
  test.each(['violin', 'viola', 'cello'] as const)('on every string of a %s, open and in harmonics', (family) => {
    const { strings, length } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
    for (const one of strings) {
      for (const partial of [1, 2, 3, 4, 5]) {
        const note = { family, string: one, length, partial };
        const { nearest, farthest } = contactPoint(note);
        for (const distance of [nearest, farthest]) {
          const { least, most } = forceWindow(note, distance);
          expect(least).toBeLessThan(FAMILIES[family].bow.force.most * 1.001);
          expect(most).toBeGreaterThan(FAMILIES[family].bow.force.least);
        }
      }
    }
  });
});

describe('advice, simulated', () => {
  test.each([2, 3, 4, 5, 6])('a simulated string bowed as advised sounds partial %i and hardly anything else', (n) => {
    const { contact, window, speedRatio } = bowAdvice(harmonic(n), open.length);
    const sound = renderString({
      length: open.length,
      hz: string.hz,
      impedance: impedance(string),
      touch: { mm: open.length / n },
      by: { distance: contact.best, speed: 0.2 * speedRatio, force: window.best },
      seconds: 0.8,
      sampleRate: 44100,
    });
    const heard = partials(sound, 44100, string.hz, 3 * n - 1, 0.4, 0.8);
    const wanted = heard[n] as number;
    const rivals = heard.filter((_, m) => m > 0 && m % n !== 0);
    expect(wanted).toBe(Math.max(...heard));
    expect(20 * Math.log10(wanted / Math.max(...rivals))).toBeGreaterThan(30);
  });

  test('bowed on its node the harmonic stays silent and bowed beside it does not', () => {
    const at = (distance: number): number => {
      const sound = renderString({
        length: open.length,
        hz: string.hz,
        impedance: impedance(string),
        touch: { mm: open.length / 3 },
        by: { distance, speed: 0.2, force: 0.3 },
        seconds: 0.5,
        sampleRate: 44100,
      });
      const heard = partials(sound, 44100, string.hz, 9, 0.25, 0.5);
      return 20 * Math.log10((heard[3] as number) / Math.max(...heard.filter((_, m) => m > 0 && m % 3 !== 0)));
    };
    expect(at(11)).toBeGreaterThan(30);
    expect(at(328 / 3)).toBeLessThan(0);
  });
});
