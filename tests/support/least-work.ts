/** The least processor time of several runs in this process, ms: a machine that is busy elsewhere counts for nothing. */
export function leastWork(runs: number, work: (run: number) => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let run = 0; run < runs; run++) {
    const begun = process.cpuUsage();
    work(run);
    const { user, system } = process.cpuUsage(begun);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

/** The least of several measurements of each, taken by turns, so that a busy moment of the machine falls on all. */
export function leastByTurns(rounds: number, measurements: readonly (() => number)[]): readonly number[] {
  const least = measurements.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < rounds; round++) {
    for (const [i, measured] of measurements.entries()) least[i] = Math.min(least[i]!, measured());
  }
  return least;
}
