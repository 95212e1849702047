/** One thing a benchmark found: a ratio of two measurements of the same run, so a slow machine slows both. */
export interface Figure {
  readonly what: string;
  readonly ratio: number;
  /** What the ratio must not pass. */
  readonly goal: { readonly most: number } | { readonly least: number };
  /** The measurements behind it, for the reader: `7.1 ms against 0.4 ms`. */
  readonly measured: string;
}

export type Bench = () => Promise<readonly Figure[]> | readonly Figure[];

export function reached({ ratio, goal }: Figure): boolean {
  return 'most' in goal ? ratio <= goal.most : ratio >= goal.least;
}

/** The quickest of several runs, ms: what else the machine does only ever adds. */
export function quickest(runs: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let run = 0; run < runs; run++) {
    const begun = performance.now();
    work();
    best = Math.min(best, performance.now() - begun);
  }
  return best;
}

export function ms(time: number): string {
  return `${time.toFixed(time < 10 ? 2 : 0)} ms`;
}
