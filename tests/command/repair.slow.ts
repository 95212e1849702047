import { describe, expect, it } from 'vitest';
import { repair } from '../../server/command/repair';
import { readText, study } from '../../server/command/study';
import { leastWork } from '../support/least-work';

describe('fixes that are applied unasked', () => {
  it('are many in hardly more time than a check takes', () => {
    const slips = '1/8 d5 E5 F#5\n'.repeat(400);
    const clean = '1/8 D5 E5 F#5\n'.repeat(400);
    const works = [
      () => study(clean, {}),
      () => {
        const { applied, draft: fixed } = repair(slips, readText({}), 'sure');
        expect(applied).toBe(400);
        study(fixed.tree.text, {});
      },
    ];
    // By turns, so that what the first rounds warm up falls on both.
    const rounds = Array.from({ length: 6 }, () => works.map((work) => leastWork(1, work)));
    const [check, fix] = works.map((_, i) => Math.min(...rounds.map((round) => round[i]!))) as [number, number];
    expect(fix / check).toBeLessThan(2);
  });
});
