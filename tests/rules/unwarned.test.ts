import { describe, expect, it } from 'vitest';
import beating from '../../server/rules/beating';
import littleRoom from '../../server/rules/little-room';
import loneThird from '../../server/rules/lone-third';
import offPitch from '../../server/rules/off-pitch';
import type { EventRule } from '../../server/rules/rule';
import { alternatives } from '../../server/solver/alternatives';
import { doubts } from '../../server/solver/doubtful';
import { EFFORT } from '../../server/solver/effort';
import { reading } from '../support/reading';

const RULES = [beating, littleRoom, loneThird, offPitch] as readonly EventRule[];
const NAMES = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'G#', 'A', 'Bb', 'B'];
const named = (midi: number) => `${NAMES[midi % 12]}${Math.floor(midi / 12) - 1}`;
/** An octave above the lowest string and up, as numbered by MIDI. */
const LOWEST = { violin: 67, viola: 60, cello: 48 } as const;

/** Where the solver chose what a rule warns about although a way that no rule warns about costs less than `EFFORT.doubtful` more: what it warns, and that cost. */
function needless(text: string): readonly string[] {
  const { tree, resolved, solutions } = reading(text);
  const passage = resolved.passages[0]!;
  const solution = solutions[0]!;
  const solved = solution.events[0];
  if (!solved) return [];
  const warned = (fingering: typeof solved.fingering) =>
    RULES.filter((rule) => rule.check({ tree, passage, solution }, { ...solved, fingering }, 0)?.length);
  const warnings = warned(solved.fingering);
  if (warnings.length === 0) return [];
  const priced = EFFORT.doubtful * doubts(solved.fingering.ways, passage.setup);
  return alternatives(solution, 0, EFFORT.doubtful)
    .filter(({ fingering, extraCost }) => warned(fingering).length === 0 && extraCost + priced < EFFORT.doubtful)
    .map(
      ({ extraCost }) =>
        `${text.trim()}: ${warnings.map(({ code }) => code).join()} although another costs ${extraCost + priced}`,
    );
}

describe.each(Object.entries(LOWEST))(
  'nothing that a rule warns about is proposed where another way costs little more: %s',
  (name, lowest) => {
    const above = Array.from({ length: 36 }, (_, n) => lowest + n);

    it('single harmonics', () => {
      expect(above.flatMap((one) => needless(`instrument: ${name}\ntempo: 1/4 = 80\n1/4 ${named(one)}o\n`))).toEqual([]);
    });

    it('harmonics in thirds, fourths, fifths, sixths and octaves', () => {
      const pairs = above
        .filter((one) => one % 2 === 0)
        .flatMap((one) => [3, 4, 5, 7, 9, 12].map((wide) => [one, one + wide] as const));
      expect(
        pairs.flatMap(([low, high]) => needless(`instrument: ${name}\ntempo: 1/4 = 60\n1/2 ${named(low)}o+${named(high)}o\n`)),
      ).toEqual([]);
    });
  },
);

describe('what used to be proposed and warned about in one breath', () => {
  it.each([
    ['a third that beat 83 times a second', 'tempo: 1/4 = 60\n1/2 Eb6o+G6o\n', 'beating'],
    ['a fourth of naturals 17 cents wide', 'instrument: viola\ntempo: 1/4 = 60\n1/2 G5o+C6o\n', 'beating'],
    ['a natural with 2.8 mm of room', 'instrument: cello\ntempo: 1/4 = 60\n1/2 C5o+F5o\n', 'little-room'],
    ['an eighth partial 25 cents sharp', 'instrument: cello\ntempo: 1/4 = 60\n1/2 C5o+G5o\n', 'off-pitch'],
  ])('%s', (_, text, code) => {
    expect(reading(text).problems.map((problem) => problem.code)).not.toContain(code);
  });
});
