import { expect, it } from 'vitest';
import { firstHeard } from '../../server/solver/repeats';
import type { Solution } from '../../server/solver/solution';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { snapshot } from '../../server/workspace/snapshot';

const heard = (solution: Solution) => solution.events.map((_, event) => firstHeard(solution, event));

it('finds the figures of an edited passage as it finds those of a new one', () => {
  const bars = Array.from({ length: 12 }, (_, bar) => `1/8 G4 B4 A4 C5 ${['D5', 'E5', 'F#5'][bar % 3]} B4 C9 G4 |`);
  const texts = [
    bars,
    bars.with(5, '1/8 G4 B4 A4 C5 |'),
    bars.with(5, '1/4 G4 B4 A4 C5 |'),
    bars.toSpliced(2, 0, 'tempo: 1/4 = 60', '1/8 A5 B5 G4 B4 A4 C5 E4 E4 |'),
    bars.slice(4),
    bars.slice(0, 7),
    [...bars, ...bars],
    ['1/8 G4 |'],
    bars,
  ].map((lines) => ['meter: 4/4', ...lines].join('\n'));
  let last = snapshot(texts[0]!, 0, DEFAULT_SETTINGS);
  for (const [version, text] of texts.entries()) {
    heard(last.solutions[0]!);
    last = snapshot(text, version + 1, DEFAULT_SETTINGS, last);
    const fresh = snapshot(text, 0, DEFAULT_SETTINGS);
    const found = heard(last.solutions[0]!);
    expect(found).toEqual(heard(fresh.solutions[0]!));
    if (text.includes('D5') && version < 7) expect(found.flat().some((at) => at !== undefined)).toBe(true);
  }
});
