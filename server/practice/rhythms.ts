import Fraction from 'fraction.js';
import { later, t } from '../l10n/translate';
import { type Exact, one } from '../music/time';
import { barsName, cutOut, heaviestBars, isTied } from './excerpt';
import type { Exercise, Section } from './exercise';
import type { PracticeKind } from './kind';
import { costAt, type Source, type SourceBar, type SourcePiece } from './source';
import { atTempo, safeTimes } from './tempo';

/** A way to lengthen some of equal notes at the cost of the others: factors that add up to their number. */
interface Rhythm {
  readonly factors: readonly Fraction[];
  readonly told: string;
}

const factors = (...of: readonly (readonly [number, number])[]) => of.map(([n, d]) => new Fraction(n, d));

const DOTTED: Rhythm = {
  factors: factors([3, 2], [1, 2]),
  told: later('Dotted: rest on the long note, and have the next finger ready before the short one.'),
};
const REVERSED: Rhythm = {
  factors: factors([1, 2], [3, 2]),
  told: later('Reversed: the short note comes first, so the notes that had time before now have none.'),
};
const FOURS: readonly Rhythm[] = [
  {
    factors: factors([2, 1], [2, 3], [2, 3], [2, 3]),
    told: later('Groups of four: hold the first, then three quick ones in one thought.'),
  },
  { factors: factors([2, 3], [2, 3], [2, 3], [2, 1]), told: later('Groups of four: three quick ones, and land on the last.') },
];
const THREES: readonly Rhythm[] = [
  {
    factors: factors([2, 1], [1, 2], [1, 2]),
    told: later('Groups of three: hold the first, then two quick ones in one thought.'),
  },
  { factors: factors([1, 2], [1, 2], [2, 1]), told: later('Groups of three: two quick ones, and land on the last.') },
];

/** Fewer equal notes in a row have no rhythm to vary. */
const LEAST = 4;
/** The short notes are twice as quick as written, so the tempo is well below the safe one. */
const SLOWER = 0.6;

export const rhythms: PracticeKind = {
  name: 'rhythms',
  label: later('Rhythms'),
  meaning: later('Equal notes dotted, reversed and in groups, every bar as long as before'),
  needs: later('at least 4 notes of one length in a row'),
  exercises: variants,
};

function variants(source: Source): readonly Exercise[] {
  const weight = (bar: SourceBar) =>
    runsOf(bar)
      .flat()
      .reduce((sum, at) => sum + need(source, bar, at), 0);
  const found = heaviestBars(source, weight).filter((bar) => runsOf(bar).length);
  // Where some of it moves, the slow bars beside it need no evening out.
  const quick = found.filter((bar) => runsOf(bar).some(([at]) => bar.pieces[at!]!.duration.lt(bar.tempo.beat)));
  const bars = cutOut(quick.length ? quick : found);
  if (bars.length === 0) return [];
  const slower = SLOWER * (safeTimes(source, bars) ?? 1);
  const groups = bars.some((bar) => inThrees(bar)) ? THREES : FOURS;
  const varied = [DOTTED, REVERSED, ...groups].map((rhythm, index): Section => {
    const why = t(
      'Every note of {bars} in turn gets time to be prepared and must then do without. Fingering and bowing stay the same; keep the beat.',
      { bars: barsName(bars) },
    );
    return {
      instructions: index === 0 ? [why, t(rhythm.told)] : [t(rhythm.told)],
      bars: atTempo(bars, slower).map((bar) => inRhythm(bar, rhythm)),
      repeated: true,
    };
  });
  const plain: Section = {
    instructions: [t('As written again: listen for whether it has become even.')],
    bars: atTempo(bars, slower),
  };
  return [{ title: t('Rhythms: {bars}', { bars: barsName(bars) }), sections: [...varied, plain], rests: true }];
}

/** How much a note of a bar wants evening out: hard notes do, and quick ones most of all. */
function need(source: Source, { pieces, tempo }: SourceBar, at: number): number {
  const { event, duration } = pieces[at]!;
  return (EASY + costAt(source, event)) * tempo.beat.div(duration).valueOf() ** 2;
}

/** So that bars of easy notes are found too, nats. */
const EASY = 0.01;

function inThrees({ meter }: SourceBar): boolean {
  return meter !== undefined && meter.unit >= 8 && meter.count % 3 === 0;
}

/** Places of equal notes next to each other, long enough to vary. */
function runsOf({ pieces }: SourceBar): readonly (readonly number[])[] {
  const runs: number[][] = [];
  let run: number[] = [];
  let length: Exact | undefined;
  for (const [at, piece] of pieces.entries()) {
    const free = piece.notes.length > 0 && !isTied(piece);
    if (!free || !length?.equals(piece.duration)) run = [];
    if (free) {
      run.push(at);
      if (run.length === 1) runs.push(run);
    }
    length = free ? piece.duration : undefined;
  }
  return runs.filter((each) => each.length >= LEAST);
}

/** The bar with its runs in a rhythm; what is left over at the end of a run stays as it was, so the bar keeps its length. */
function inRhythm(bar: SourceBar, { factors: pattern }: Rhythm): SourceBar {
  const pieces: SourcePiece[] = [...bar.pieces];
  for (const run of runsOf(bar)) {
    for (let group = 0; group + pattern.length <= run.length; group += pattern.length) {
      for (const [index, factor] of pattern.entries()) {
        const at = run[group + index]!;
        const piece = pieces[at]!;
        pieces[at] = { ...piece, duration: one(piece.duration.mul(factor)) };
      }
    }
  }
  return { ...bar, pieces };
}
