import { describe, expect, it } from 'vitest';
import { pitchName, semitone } from '../../server/music/pitch';
import { deviation } from '../../server/music/temperament';
import { createSolver } from '../../server/solver/solve';
import type { Way } from '../../server/solver/way';
import { waysOf } from '../../server/solver/ways';
import { event, note, passage, setup } from './build';

describe('derived: where an artificial harmonic is stopped', () => {
  it.each([{ kind: 'equal' as const }, { kind: 'pythagorean' as const }])(
    'it sounds what the temperament asks: $kind',
    (kind) => {
      const made = setup({ temperament: kind });
      let seen = 0;
      for (const text of ['D6o', 'F#6o', 'Bb6o', 'E7o']) {
        for (const way of waysOf(note(text), made).filter(({ kind }) => kind === 'artificial')) {
          expect(way.cents).toBeCloseTo(deviation(way.sounding, made.temperament), 6);
          expect(soundedBy(way, made.instrument.strings[way.string]!)).toBeCloseTo(way.hz, 3);
          seen++;
        }
      }
      expect(seen).toBeGreaterThan(50);
    },
  );

  it('a third harmonic is stopped higher than its plain note, for its fifth partial is flat', () => {
    const [way] = waysOf(note('C#5<>E#5', { string: 2 }), setup());
    const [plain] = waysOf(note('C#5', { string: 2 }), setup());
    // Partial 5 is 13.686 cents flat (exact arithmetic); the string's stiffness takes some of it back.
    expect(way!.stop!.mm).toBeGreaterThan(plain!.stop!.mm + 0.5);
  });

  /** Partial n of what a stiff string, shortened to a length, sounds: n f sqrt((1 + B n^2) / (1 + B)), B as the square of the shortening. */
  function soundedBy({ partial: n, length, stop }: Way, { hz, inharmonicity }: { hz: number; inharmonicity: number }): number {
    const open = length + stop!.mm;
    const b = inharmonicity * (open / length) ** 2;
    return ((n * hz * open) / length) * Math.sqrt((1 + b * n * n) / (1 + b));
  }
});

describe('natural harmonics that belong to no temperament', () => {
  const sevenths = (text: string, pins = {}) => waysOf(note(text, pins), setup()).filter(({ partial }) => partial === 7);

  it('are taken only where somebody asks for them by name', () => {
    // F6 is partial 7 of the G string, 31 cents flat (exact arithmetic).
    expect(sevenths('F6o')).toEqual([]);
    expect(sevenths('F6o', { manner: 'natural' }).length).toBeGreaterThan(0);
    expect(sevenths('F6o', { node: { k: 1, n: 7 } }).length).toBeGreaterThan(0);
    expect(sevenths('<>C#4').map(({ sounding }) => semitone(sounding) % 12)).not.toEqual([]);
    const solution = createSolver().solve(passage([event([note('F6o')])]));
    expect(solution.events[0]!.fingering.ways.map(({ sounding, partial }) => [pitchName(sounding), partial === 7])).toEqual([
      ['F6', false],
    ]);
  });
});
