import type { BarRest } from './passage';

/** True where the same is written for the rests of two bars. */
export function sameRests(a: readonly BarRest[] = [], b: readonly BarRest[] = []): boolean {
  return (
    a === b ||
    (a.length === b.length &&
      a.every(({ onset, ...words }, i) => {
        const { onset: other, ...others } = b[i] as BarRest;
        return onset === other && JSON.stringify(words) === JSON.stringify(others);
      }))
  );
}
