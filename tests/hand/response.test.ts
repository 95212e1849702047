import { describe, expect, it } from 'vitest';
import { DYNAMICS } from '../../grammar/marks';
import { chanceInTime, secondsToSpeak } from '../../server/hand/response';
import { skillOf } from '../../server/hand/skill';
import { settlingSeconds } from '../../server/instrument/response';
import { damping } from '../../server/instrument/tolerance';

const skill = skillOf('professional');
const natural = (partial: number, hz = 293.66) => ({ partial, hz, doubled: false });
const artificial = (interval: 'octave' | 'fifth' | 'sixth' | 'fourth' | 'third' | 'minor-third') => ({
  partial: { octave: 2, fifth: 3, sixth: 5, fourth: 4, third: 5, 'minor-third': 6 }[interval],
  hz: 440,
  interval,
  doubled: false,
});

describe('derived: what a finger at a node leaves of the rival that it drains least', () => {
  it.each([2, 3, 4, 5, 6, 7, 8])('is sin²(pi / n) a period for partial %i, whichever node is touched', (n) => {
    for (let k = 1; k < n; k++) {
      if ([2, 3, 5, 7].some((prime) => k % prime === 0 && n % prime === 0)) continue;
      const rivals = Array.from({ length: n - 1 }, (_, m) => damping(m + 1, (k / n) * 328, 328, 0));
      expect(Math.min(...rivals)).toBeCloseTo(Math.sin(Math.PI / n) ** 2, 9);
    }
  });
});

describe('common practice, no source — how soon a harmonic speaks', () => {
  it('high partials and low strings take longer, light bows too', () => {
    const partials = [2, 3, 4, 5, 6, 7, 8].map((n) => settlingSeconds(n, 196, 'mf'));
    expect(partials).toEqual([...partials].sort((a, b) => a - b));
    expect(settlingSeconds(4, 65.4, 'mf')).toBeGreaterThan(settlingSeconds(4, 196, 'mf'));
    const loud = DYNAMICS.map((dynamic) => settlingSeconds(4, 196, dynamic));
    expect(loud).toEqual([...loud].sort((a, b) => b - a));
  });

  it('natural before fifth, fifth before fourth, fourth before the thirds; two at once last', () => {
    const seconds = [natural(3), artificial('fifth'), artificial('fourth'), artificial('third'), artificial('minor-third')].map(
      (answer) => secondsToSpeak(skill, answer, 'mf'),
    );
    expect(seconds).toEqual([...seconds].sort((a, b) => a - b));
    expect(secondsToSpeak(skill, { ...artificial('fourth'), doubled: true }, 'mf')).toBeGreaterThan(seconds[2]!);
  });

  it('a natural harmonic is all but certain at leisure and not at speed; it is never surer in less time', () => {
    expect(chanceInTime(skill, natural(4), 'mf', 0.5)).toBeGreaterThan(0.99);
    expect(chanceInTime(skill, natural(4), 'mf', 0.08)).toBeLessThan(0.7);
    const chances = Array.from({ length: 60 }, (_, i) => chanceInTime(skill, artificial('fourth'), 'p', (i + 1) / 60));
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
  });
});
