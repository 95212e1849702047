import { describe, expect, test } from 'vitest';
import { impedance } from '../../server/instrument/bow';
import { buildInstrument } from '../../server/instrument/build';
import { ARTIFICIAL_NODES } from '../../server/instrument/nodes';
import { damping, tolerance } from '../../server/instrument/tolerance';
import { bridgeSignal, internalRate, type StringSpec } from '../../server/instrument/waveguide';
import { partials } from '../instrument/partials';

const violin = buildInstrument({ family: 'violin', tuning: 'fifths', a4: 440 });
const aString = violin.strings[1]!;
const LENGTH = violin.length;
const FINGER = 7;
const PARTIALS = 18;

/** An A string plucked close to the bridge, so that every partial is there to begin with. */
const plucked: StringSpec = {
  length: LENGTH,
  hz: aString.hz,
  impedance: impedance(aString),
  by: { distance: 9 },
  seconds: 0.12,
  sampleRate: 44100,
};
const rate = internalRate(plucked);

/** Nepers a second that each partial loses. */
function decays(touch?: { mm: number; weight: number }): number[] {
  const signal = bridgeSignal(touch ? { ...plucked, touch: { ...touch, width: FINGER } } : plucked);
  const early = partials(signal, rate, plucked.hz, PARTIALS, 0.01, 0.06);
  const late = partials(signal, rate, plucked.hz, PARTIALS, 0.06, 0.11);
  return early.map((amplitude, n) => (n === 0 ? 0 : Math.log(amplitude / (late[n] as number)) / 0.05));
}

const untouched = decays();

/** What the finger alone takes, nepers a second. */
function lostToFinger(mm: number): number[] {
  return decays({ mm, weight: 0.02 }).map((loss, n) => loss - (untouched[n] as number));
}

/** dB by which the wanted partial and its multiples outweigh the rest while the string rings under the finger. */
function clarity(mm: number, n: number): number {
  const signal = bridgeSignal({ ...plucked, touch: { mm, weight: 0.1, width: FINGER } });
  const amplitudes = partials(signal, rate, plucked.hz, 3 * n - 1, 0.05, 0.1);
  const energy = (wanted: boolean): number =>
    amplitudes.reduce((sum, amplitude, m) => sum + (m > 0 && (m % n === 0) === wanted ? amplitude ** 2 : 0), 0);
  return 10 * Math.log10(energy(true) / energy(false));
}

describe('published: travelling-wave string with a damper (J. O. Smith, Physical Audio Signal Processing; from memory), independent of the formulas it checks', () => {
  test.each([0, 2, 4, 6])('a finger %i mm off the node takes from each mode what the formula says', (off) => {
    const mm = LENGTH / 4 + off;
    const lost = lostToFinger(mm);
    for (let m = 1; m <= PARTIALS; m++) {
      // Power taken by a resistance rho * 2Z moving as sin(m pi x / L): amplitude falls by 4 rho f sin^2 a second.
      expect(lost[m] as number).toBeCloseTo(4 * 0.02 * plucked.hz * damping(m, mm, LENGTH, FINGER), 0);
    }
  });

  test.each(['fifth', 'fourth', 'third', 'minor-third'] as const)(
    '%s: the string holds up to the tolerance and gives way past it',
    (name) => {
      const { k, n } = ARTIFICIAL_NODES[name];
      const allowed = tolerance(LENGTH, k, n, { width: FINGER, share: 0.3 });
      const holds = (off: number): boolean => {
        const lost = lostToFinger((LENGTH * k) / n + off);
        const rivals = lost.filter((_, m) => m > 0 && m < 3 * n && m % n !== 0);
        return (lost[n] as number) < 0.3 * Math.min(...rivals);
      };
      expect(holds(allowed - 0.3) && holds(0.3 - allowed)).toBe(true);
      expect(holds(allowed + 0.3) && holds(-0.3 - allowed)).toBe(false);
    },
  );
});

describe('common practice, no source — a fifth forgives a wider miss than a fourth, and a third is the most delicate', () => {
  const order = ['fifth', 'fourth', 'third', 'minor-third'] as const;
  test('tolerance ranks them so, at every stop of the first two octaves', () => {
    for (let semitones = 0; semitones <= 12; semitones++) {
      const length = LENGTH * 2 ** (-semitones / 12);
      const widths = order.map((name) => tolerance(length, ARTIFICIAL_NODES[name].k, ARTIFICIAL_NODES[name].n));
      expect(widths).toEqual([...widths].sort((a, b) => b - a));
    }
  });
  test.each([0, 2, 4])('and so does the simulated string, %i mm off: energy of the harmonic against everything else', (off) => {
    const heard = order.map((name) =>
      clarity((LENGTH * ARTIFICIAL_NODES[name].k) / ARTIFICIAL_NODES[name].n + off, ARTIFICIAL_NODES[name].n),
    );
    for (let i = 1; i < heard.length; i++) expect(heard[i] as number).toBeLessThan((heard[i - 1] as number) - 2);
  });
  test('each speaks less clearly the further the finger misses', () => {
    for (const name of order) {
      const { k, n } = ARTIFICIAL_NODES[name];
      const heard = [0, 3, 6].map((off) => clarity((LENGTH * k) / n + off, n));
      expect(heard).toEqual([...heard].sort((a, b) => b - a));
    }
  });
});
