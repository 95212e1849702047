/**
 * How many cases a fuzz test tries, and from which seed. The figures in the code are those of CI: quick, and the same cases
 * every time. `FUZZ_TIMES=20 npm run fuzz` tries twenty times as many, `FUZZ_SEED=7` other ones.
 */
export function runs(numRuns: number, seed: number): { readonly numRuns: number; readonly seed: number } {
  const times = Number(process.env.FUZZ_TIMES ?? 1);
  return { numRuns: Math.ceil(numRuns * times), seed: process.env.FUZZ_SEED ? Number(process.env.FUZZ_SEED) : seed };
}
