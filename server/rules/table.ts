import type { Rule } from './rule';

/** Every rule, in the order that its problems are listed. */
export const RULES: readonly Rule[] = [];
