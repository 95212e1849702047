import { medianOf } from './curve';
import type { ExpectedEvent } from './expected';

/** Notes on either side by which the time of a note is told. */
const AROUND = 4;

/** When each note was due, by the notes around it. */
export class Grid {
  private readonly written: readonly number[];

  constructor(
    hop: number,
    expected: readonly ExpectedEvent[],
    private readonly heard: readonly { readonly index: number; readonly frame: number }[],
  ) {
    let at = 0;
    this.written = expected.map(({ seconds }) => {
      const onset = at;
      at += seconds / hop;
      return onset;
    });
  }

  /** Frame; undefined where too few notes around it are known. A line through them that half may be off (H. Theil, 1950; P. K. Sen, 1968). */
  at(index: number): number | undefined {
    const others = this.heard.filter((each) => each.index !== index);
    const after = others.findIndex((each) => each.index > index);
    const middle = after < 0 ? others.length : after;
    const near = others.slice(Math.max(0, middle - AROUND), middle + AROUND);
    if (near.length < 3) return undefined;
    const place = (i: number) => this.written[i] as number;
    const slopes = near.flatMap((a, i) =>
      near.slice(i + 1).flatMap((b) => (b.index > a.index ? [(b.frame - a.frame) / (place(b.index) - place(a.index))] : [])),
    );
    if (slopes.length === 0) return undefined;
    const slope = medianOf(slopes);
    return medianOf(near.map(({ index: other, frame }) => frame + slope * (place(index) - place(other))));
  }
}
