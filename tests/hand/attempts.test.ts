import { mean, variance } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { beliefAfter, expected, experienceCost, PRIOR_ATTEMPTS, uncertainty } from '../../server/hand/attempts';
import { alternatives } from '../../server/solver/alternatives';
import { createSolver } from '../../server/solver/solve';
import { event, note, passage, setup } from '../solver/build';

/** The Beta density laid out on a fine grid: prior times likelihood by Bayes' rule, no closed form used. */
function byGrid(model: number, clean: number, tried: number) {
  const steps = 20_000;
  const points = Array.from({ length: steps }, (_, i) => (i + 0.5) / steps);
  const [a, b] = [model * PRIOR_ATTEMPTS, (1 - model) * PRIOR_ATTEMPTS];
  const weights = points.map((p) => p ** (a - 1) * (1 - p) ** (b - 1) * p ** clean * (1 - p) ** (tried - clean));
  const all = weights.reduce((sum, one) => sum + one, 0);
  const average = points.reduce((sum, p, i) => sum + p * weights[i]!, 0) / all;
  const spread = points.reduce((sum, p, i) => sum + (p - average) ** 2 * weights[i]!, 0) / all;
  return { mean: average, deviation: Math.sqrt(spread) };
}

describe('published: Gelman et al., Bayesian Data Analysis, 2.1 (from memory) — Beta posterior of a count', () => {
  it.each([
    [0.7, 0, 0],
    [0.7, 4, 10],
    [0.9, 10, 10],
    [0.6, 1, 30],
  ])('model %f, %i of %i clean', (model, clean, tried) => {
    const belief = beliefAfter(model, { clean, tried });
    const grid = byGrid(model, clean, tried);
    expect(expected(belief)).toBeCloseTo(grid.mean, 3);
    expect(uncertainty(belief)).toBeCloseTo(grid.deviation, 3);
  });

  it('is what a statistics library finds for the equal sample where prior and record are whole numbers', () => {
    // A prior of 3 of 6 and a record of 4 of 10 are together 7 clean of 16.
    const sample = [...Array(7).fill(1), ...Array(9).fill(0)] as number[];
    const belief = beliefAfter(0.5, { clean: 4, tried: 10 });
    expect(expected(belief)).toBeCloseTo(mean(sample), 12);
    expect(uncertainty(belief) ** 2).toBeCloseTo(variance(sample) / (sample.length + 1), 12);
  });

  it('can be moved however sure or hopeless the model is', () => {
    for (const model of [0, 1]) {
      expect(expected(beliefAfter(model, { clean: 0, tried: 0 }))).toBeCloseTo(model === 1 ? 0.98 : 0.02, 12);
      expect(uncertainty(beliefAfter(model, { clean: 0, tried: 0 }))).toBeGreaterThan(0);
    }
    expect(experienceCost(1, { clean: 10, tried: 10 })).toBeLessThan(0);
  });

  it('narrows with every attempt, and costs nothing before the first', () => {
    const widths = [0, 5, 20, 100].map((tried) => uncertainty(beliefAfter(0.8, { clean: tried * 0.8, tried })));
    expect(widths).toEqual([...widths].sort((a, b) => b - a));
    expect(experienceCost(0.8, undefined)).toBe(0);
    expect(experienceCost(0.8, { clean: 0, tried: 0 })).toBe(0);
    expect(experienceCost(0.8, { clean: 0, tried: 10 })).toBeGreaterThan(0.4);
    expect(experienceCost(0.8, { clean: 10, tried: 10 })).toBeLessThan(0);
  });
});

describe('the solver and what the player has tried', () => {
  const solve = (experience: Record<string, { clean: number; tried: number }>) => {
    const made = setup();
    const tried = { ...made, key: JSON.stringify(experience), hand: { ...made.hand, experience } };
    return createSolver().solve(passage([event([note('F#6o')])], tried));
  };

  it('leaves a node that ten attempts failed at where another way is close', () => {
    const before = solve({});
    const { stringName, touch, partial } = before.events[0]!.fingering.ways[0]!;
    expect(partial).toBe(5);
    const after = solve({ [`${stringName} natural ${touch!.k}/${touch!.n}`]: { clean: 0, tried: 10 } });
    const now = after.events[0]!.fingering.ways[0]!;
    expect(`${now.touch!.k}/${now.touch!.n}`).not.toBe(`${touch!.k}/${touch!.n}`);
    const left = alternatives(after, 0).find(({ fingering }) => fingering.ways[0]!.touch?.k === touch!.k)!;
    expect(left.extraCost).toBeGreaterThan(0.4);
  });

  it('stays within the chances there are', () => {
    const solution = solve({ 'III natural 2/5': { clean: 500, tried: 500 }, 'III natural 1/5': { clean: 500, tried: 500 } });
    expect(solution.events[0]!.speaks[0]).toBeLessThanOrEqual(1);
    expect(Object.values(solution.events[0]!.terms).every((cost) => cost >= 0)).toBe(true);
  });
});
