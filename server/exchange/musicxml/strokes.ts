import type { Losses } from './losses';
import type { Slice } from './slices';

/** One bow stroke over slices `first` to `last`, both included. */
export interface Stroke {
  readonly first: number;
  readonly last: number;
  readonly word: 'slur' | 'up' | 'down';
}

/**
 * The bow strokes of a part: its slurs and bow marks. A passage has one bow at a time, so of slurs
 * inside one another the inner ones stay and the outer ones, which show phrases, are listed.
 * `breaks` are slices that a stroke can't run into, since a line of its own comes before them.
 */
export function strokesOf(slices: readonly Slice[], breaks: ReadonlySet<number>, losses: Losses): readonly Stroke[] {
  const slurs = slursOf(slices, losses).sort((a, b) => a.last - a.first - (b.last - b.first) || a.first - b.first);
  const owner = new Map<number, Stroke>();
  const strokes: Stroke[] = [];
  const put = (stroke: Stroke) => {
    strokes.push(stroke);
    for (let i = stroke.first; i <= stroke.last; i++) owner.set(i, stroke);
  };
  const bowAt = (i: number) => slices[i]?.begins.find((c) => c.marks.bow)?.marks.bow;
  for (const slur of slurs) {
    const { measure } = slices[slur.first] as Slice;
    let taken = false;
    for (let i = slur.first; i <= slur.last; i++) taken ||= owner.has(i);
    if (taken) {
      losses.leftOut(measure, 'a slur that overlaps another one');
      continue;
    }
    for (const piece of piecesOf(slur, breaks)) {
      // A note held over the cut keeps the bow going by itself.
      const held = slices[piece.first - 1]?.notes.some((n) => n.tied);
      if (piece.first !== slur.first && !held) {
        losses.changed(
          (slices[piece.first] as Slice).measure,
          'a slur across a change of tempo or meter, or an instruction, cut in two there',
        );
      }
      const bow = bowAt(piece.first);
      if (bow !== undefined || piece.last > piece.first) put({ ...piece, word: bow ?? 'slur' });
    }
  }
  for (const [i, slice] of slices.entries()) {
    const bow = bowAt(i);
    const stroke = owner.get(i);
    if (bow === undefined || stroke?.first === i) continue;
    if (stroke) losses.leftOut(slice.measure, `the ${bow}-bow in the middle of a slur`);
    else put({ first: i, last: i, word: bow });
  }
  return strokes.sort((a, b) => a.first - b.first);
}

function slursOf(slices: readonly Slice[], losses: Losses): { first: number; last: number }[] {
  const open = new Map<string, number>();
  const found = new Map<string, { first: number; last: number }>();
  /** The last slice of the chord that begins at a slice: it may be cut into several. */
  const lastOf = (i: number, voice: string) => {
    const slice = slices[i] as Slice;
    const chord = slice.begins.find((c) => c.voice === voice);
    if (!chord) return i;
    const end = chord.onset.add(chord.duration);
    let last = i;
    while (slices[last + 1]?.bar === slice.bar && (slices[last + 1] as Slice).onset.compare(end) < 0) last++;
    return last;
  };
  for (const [i, slice] of slices.entries()) {
    for (const chord of slice.begins) {
      for (const number of chord.marks.slurStops) {
        const key = `${chord.voice} ${number}`;
        const first = open.get(key);
        if (first === undefined) losses.leftOut(slice.measure, 'the end of a slur that begins nowhere');
        else {
          open.delete(key);
          const last = lastOf(i, chord.voice);
          found.set(`${first} ${last}`, { first, last });
        }
      }
      for (const number of chord.marks.slurStarts) open.set(`${chord.voice} ${number}`, i);
    }
  }
  for (const first of open.values()) losses.leftOut((slices[first] as Slice).measure, 'a slur that ends nowhere');
  return [...found.values()];
}

function piecesOf(slur: { first: number; last: number }, breaks: ReadonlySet<number>): { first: number; last: number }[] {
  const pieces: { first: number; last: number }[] = [];
  let { first } = slur;
  for (let i = slur.first + 1; i <= slur.last; i++) {
    if (!breaks.has(i)) continue;
    pieces.push({ first, last: i - 1 });
    first = i;
  }
  pieces.push({ first, last: slur.last });
  return pieces;
}
