import { test } from 'vitest';
import { runs } from '../support/runs';
import { EDITS, LAWS } from './laws';

const { numRuns, seed } = runs(20_000, 11);
/** Time for each thousand, ms. */
const PATIENCE = 30_000;

test(EDITS, { timeout: (PATIENCE * numRuns) / 1000 }, () => LAWS[EDITS]?.(numRuns, seed));
