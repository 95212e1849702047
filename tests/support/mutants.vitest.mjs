import config from '../../vitest.config.mjs';
import { TESTS } from './mutants.config.mjs';

/** The usual run, of the tests that speak for one room. */
export default (env) => {
  const usual = config(env);
  return { ...usual, test: { ...usual.test, include: TESTS } };
};
