import { test } from 'vitest';
import { LAWS } from './laws';

test.each(Object.entries(LAWS))('%s', (_name, law) => law(150, 1));
