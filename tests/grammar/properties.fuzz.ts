import { test } from 'vitest';
import { runs } from '../support/runs';
import { EDITS, LAWS } from './laws';

/** Twenty thousand for each of five laws, a hundred thousand cases; `edits.fuzz.ts` tries the fifth on another core. */
const { numRuns, seed } = runs(20_000, 11);
/** Time for each thousand, ms. */
const PATIENCE = 30_000;
const quick = Object.entries(LAWS).filter(([name]) => name !== EDITS);

test.each(quick)('%s', { timeout: (PATIENCE * numRuns) / 1000 }, (_name, law) => law(numRuns, seed));
