import { test } from 'vitest';
import { runs } from '../support/runs';
import { LAWS } from './laws';

/** Twenty thousand for each of five laws: a hundred thousand cases. */
const { numRuns, seed } = runs(20_000, 11);
/** Time for each thousand, ms. */
const PATIENCE = 30_000;

test.each(Object.entries(LAWS))('%s', { timeout: (PATIENCE * numRuns) / 1000 }, (_name, law) => law(numRuns, seed));
