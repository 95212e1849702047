import { test } from 'vitest';
import { LAWS } from './laws';

test.each(Object.entries(LAWS))('%s', (_name, law) => {
  for (const seed of [11, 12, 13, 14]) law(3000, seed);
});
