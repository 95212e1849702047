import { t } from '../../l10n/translate';
import type { Losses } from './losses';
import type { Slice } from './slices';

/** One bow stroke over slices `first` to `last`, both included. */
export interface Stroke {
  readonly first: number;
  readonly last: number;
  readonly word: 'slur' | 'up' | 'down';
}

/** Slices `first` to `last`, both included. */
export interface Run {
  readonly first: number;
  readonly last: number;
}

/**
 * The bow strokes of a part: its slurs and bow marks. A passage has one bow at a time. Of slurs that share a note the
 * later one begins after it; a slur around others shows a phrase.
 * `breaks` are slices that a stroke can't run into, since a line of its own comes before them.
 */
export function strokesOf(
  slices: readonly Slice[],
  breaks: ReadonlySet<number>,
  losses: Losses,
): { readonly strokes: readonly Stroke[]; readonly phrases: readonly Run[] } {
  const owner = new Map<number, Stroke>();
  const strokes: Stroke[] = [];
  const put = (stroke: Stroke) => {
    strokes.push(stroke);
    for (let i = stroke.first; i <= stroke.last; i++) owner.set(i, stroke);
  };
  const bowAt = (i: number) => slices[i]?.begins.find((c) => c.marks.bow)?.marks.bow;
  const phrases: Run[] = [];
  for (const { slur, phrase } of inOrder(slursOf(slices, losses))) {
    if (phrase && nests(slur, owner, phrases)) {
      for (const piece of piecesOf(slur, breaks)) {
        const inner = strokes.some((s) => s.first >= piece.first && s.last <= piece.last);
        // A piece with nothing under it is a slur after all, one with a whole slur under it says no more than that.
        if (!inner && piece.last > piece.first) put({ ...piece, word: bowAt(piece.first) ?? 'slur' });
        else if (owner.get(piece.first) !== owner.get(piece.last) || !owner.has(piece.first)) phrases.push(piece);
      }
      continue;
    }
    const free = freeRuns(slur, owner);
    const whole = free[0]?.first === slur.first && free[0].last === slur.last;
    if (!whole) {
      const { measure } = slices[slur.first] as Slice;
      losses.changed(
        measure,
        phrase ? t('a slur around others, kept where it is alone') : t('two slurs that share notes, parted there'),
      );
    }
    for (const piece of free.flatMap((run) => piecesOf(run, breaks))) {
      // A note held over the cut keeps the bow going by itself.
      const held = slices[piece.first - 1]?.notes.some((n) => n.tied);
      if (breaks.has(piece.first) && piece.first !== slur.first && !held) {
        losses.changed(
          (slices[piece.first] as Slice).measure,
          t('a slur across a change of tempo or meter, or an instruction, cut in two there'),
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
    if (stroke) losses.leftOut(slice.measure, t('a bow mark in the middle of a slur'), bow);
    else put({ first: i, last: i, word: bow });
  }
  return { strokes: strokes.sort((a, b) => a.first - b.first), phrases };
}

/** True where no stroke and no phrase crosses an end of this one. */
function nests({ first, last }: Run, owner: ReadonlyMap<number, Stroke>, phrases: readonly Run[]): boolean {
  const [before, after] = [owner.get(first), owner.get(last)];
  if (before && before.first < first) return false;
  if (after && after.last > last) return false;
  const inside = (p: Run) => p.first >= first && p.last <= last;
  const around = (p: Run) => p.first <= first && p.last >= last;
  return phrases.every((p) => p.last < first || p.first > last || inside(p) || around(p));
}

/** Slurs as the music goes, but one around others (`phrase`) after these, the shorter first. */
function inOrder(slurs: readonly Run[]): readonly { readonly slur: Run; readonly phrase: boolean }[] {
  const sorted = [...slurs].sort((a, b) => a.first - b.first || a.last - b.last);
  const marked = sorted.map((slur, i) => {
    let phrase = sorted[i - 1]?.first === slur.first;
    for (let j = i + 1; !phrase && (sorted[j]?.first ?? Number.POSITIVE_INFINITY) <= slur.last; j++)
      phrase = (sorted[j] as Run).last <= slur.last;
    return { slur, phrase };
  });
  const phrases = marked.filter((m) => m.phrase).sort((a, b) => a.slur.last - a.slur.first - (b.slur.last - b.slur.first));
  return [...marked.filter((m) => !m.phrase), ...phrases];
}

/** The stretches of a slur that are under no other yet. */
function freeRuns(slur: Run, owner: ReadonlyMap<number, Stroke>): readonly Run[] {
  const runs: { first: number; last: number }[] = [];
  for (let i = slur.first; i <= slur.last; i++) {
    if (owner.has(i)) continue;
    const run = runs.at(-1);
    if (run?.last === i - 1) run.last = i;
    else runs.push({ first: i, last: i });
  }
  return runs;
}

interface SlurEnd {
  readonly number: string;
  /** Index of the slice. */
  readonly at: number;
  readonly voice: string;
}

/** A slur that ends in another voice than it began in crosses no more than this; an assumption, lest two stray ends make one. */
const MOST_BAR_LINES = 1;

function slursOf(slices: readonly Slice[], losses: Losses): readonly Run[] {
  const open = new Map<string, SlurEnd>();
  const found = new Map<string, Run>();
  const begun: SlurEnd[] = [];
  const ended: SlurEnd[] = [];
  /** The last slice of the chord that begins at a slice: it may be cut into several. */
  const lastOf = ({ at, voice }: SlurEnd) => {
    const slice = slices[at] as Slice;
    const chord = slice.begins.find((c) => c.voice === voice);
    if (!chord) return at;
    const end = chord.onset.add(chord.duration);
    let last = at;
    while (slices[last + 1]?.bar === slice.bar && (slices[last + 1] as Slice).onset.compare(end) < 0) last++;
    return last;
  };
  const join = (start: SlurEnd, end: SlurEnd) => {
    const last = lastOf(end);
    found.set(`${start.at} ${last}`, { first: start.at, last });
  };
  for (const [at, slice] of slices.entries()) {
    for (const { voice, marks } of slice.begins) {
      for (const number of marks.slurStops) {
        const key = `${voice} ${number}`;
        const start = open.get(key);
        open.delete(key);
        if (start) join(start, { number, at, voice });
        else ended.push({ number, at, voice });
      }
      for (const number of marks.slurStarts) {
        const key = `${voice} ${number}`;
        const before = open.get(key);
        if (before) begun.push(before);
        open.set(key, { number, at, voice });
      }
    }
  }
  begun.push(...open.values());
  begun.sort((a, b) => a.at - b.at);
  const lone = joinedAcrossVoices(begun, ended, slices, join);
  for (const { at } of lone.ended) losses.leftOut((slices[at] as Slice).measure, t('the end of a slur that begins nowhere'));
  for (const { at } of lone.begun) losses.leftOut((slices[at] as Slice).measure, t('a slur that ends nowhere'));
  return [...found.values()];
}

/** Joins each end that has no beginning in its own voice, in the order of the music, to the latest beginning that no voice ended; returns what is left. */
function joinedAcrossVoices(
  begun: readonly SlurEnd[],
  ended: readonly SlurEnd[],
  slices: readonly Slice[],
  join: (start: SlurEnd, end: SlurEnd) => void,
): { readonly begun: readonly SlurEnd[]; readonly ended: readonly SlurEnd[] } {
  const barOf = ({ at }: SlurEnd) => (slices[at] as Slice).bar;
  const waiting = new Map<string, SlurEnd[]>();
  const joined = new Set<SlurEnd>();
  let next = 0;
  for (const end of ended) {
    for (; begun[next] && (begun[next] as SlurEnd).at < end.at; next++) {
      const start = begun[next] as SlurEnd;
      const same = waiting.get(start.number);
      if (same) same.push(start);
      else waiting.set(start.number, [start]);
    }
    const same = waiting.get(end.number);
    const start = same?.at(-1);
    if (!start || barOf(end) - barOf(start) > MOST_BAR_LINES) continue;
    same?.pop();
    join(start, end);
    joined.add(start).add(end);
  }
  const left = (ends: readonly SlurEnd[]) => ends.filter((e) => !joined.has(e));
  return { begun: left(begun), ended: left(ended) };
}

function piecesOf(slur: Run, breaks: ReadonlySet<number>): readonly Run[] {
  const pieces: Run[] = [];
  let { first } = slur;
  for (let i = slur.first + 1; i <= slur.last; i++) {
    if (!breaks.has(i)) continue;
    pieces.push({ first, last: i - 1 });
    first = i;
  }
  pieces.push({ first, last: slur.last });
  return pieces;
}
