/** Patience for one thing to appear, ms: two busy cores start an extension host and solve a file in this. */
export const PATIENCE = 90_000;
