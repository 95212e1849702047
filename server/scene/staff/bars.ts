import Fraction from 'fraction.js';
import { tupletOf } from '../../music/note-values';
import type { ScenePassage } from '../../protocol/scene';
import type { Clef } from './clef';
import type { Printed } from './hairpins';
import { JUMP_SIGNS } from './mark-signs';

/** A note, double stop or rest of a bar. */
export interface Stretch {
  /** Absent for a rest. */
  readonly event?: number;
  readonly length: Fraction;
  /** What is printed at a rest. */
  readonly printed?: Printed;
}

export interface StaffBar {
  readonly number: number;
  readonly stretches: readonly Stretch[];
  readonly open?: '|:';
  readonly close: string;
  /** Set where it is new. */
  readonly meter?: string;
  /** The key in force, and whether it is new here. */
  readonly key?: ScenePassage['key'];
  readonly newKey?: true;
  /** Where one is written, and whether it is another than that of the bar before. */
  readonly clef?: Clef;
  readonly newClef?: true;
  readonly ending?: readonly number[];
  readonly jumps: readonly string[];
  readonly instructions: readonly string[];
  /** Rehearsal marks. */
  readonly marks: readonly string[];
  /** A hairpin ends at its bar line. */
  readonly endsHairpin?: true;
  /** The first of so many bars that are written as one rest; the number of bars it is drawn for. */
  readonly together?: number;
  /** Goes on with a bar that was too long for one line. */
  readonly continued?: true;
}

/** The bars of a passage as they are drawn: what each holds, what is new in it, what is said over it. */
export function staffBars(passage: ScenePassage): readonly StaffBar[] {
  let meter: string | undefined;
  let key = passage.key;
  let clef: Clef | undefined;
  let number = 0;
  return passage.bars.map((bar) => {
    const here = bar.key ?? passage.key;
    const newKey = here?.tonic !== key?.tonic || here?.mode !== key?.mode;
    key = here;
    const newClef = number++ > 0 && bar.clef !== clef;
    clef = bar.clef;
    const said = passage.instructions.filter((each) => each.bar === bar.number);
    const fresh = bar.meter !== undefined && bar.meter !== meter;
    meter = bar.meter ?? meter;
    return {
      number: bar.number,
      stretches: bar.pieces.map(({ length, event, ...printed }) => ({
        length: new Fraction(length),
        ...(event === undefined ? { printed } : { event }),
      })),
      ...(bar.open && { open: bar.open }),
      close: bar.close,
      ...(fresh && bar.meter !== undefined && { meter: bar.meter }),
      ...(here && { key: here }),
      ...(newKey && { newKey }),
      ...(bar.clef && { clef: bar.clef }),
      ...(newClef && { newClef }),
      ...(bar.ending && { ending: bar.ending }),
      ...(bar.together !== undefined && { together: bar.together }),
      ...(bar.endsHairpin && { endsHairpin: bar.endsHairpin }),
      jumps: bar.jumps ?? [],
      instructions: said.filter(({ mark }) => !mark).map(({ text }) => text),
      marks: said.filter(({ mark }) => mark).map(({ text }) => text),
    };
  });
}

/** Bars of silence that are written as one rest made one bar, as far as they are among these and nothing is printed over a later one. */
export function restsTogether<Each extends { readonly bar: StaffBar }>(bars: readonly Each[]): readonly Each[] {
  const drawn: Each[] = [];
  let next = 0;
  for (const [at, each] of bars.entries()) {
    if (at < next) continue;
    const { together = 1, ...bar } = each.bar;
    let count = 1;
    while (count < together && isPlainRest(bars[at + count]?.bar)) count++;
    next = at + count;
    const { close, jumps } = (bars[next - 1] as Each).bar;
    const one = { ...bar, close, jumps: [...new Set([...bar.jumps, ...jumps])], together: count };
    if (count > 1 && isSilent(bar)) drawn.push({ ...each, bar: one });
    else {
      drawn.push({ ...each, bar });
      next = at + 1;
    }
  }
  return drawn;
}

function isSilent({ stretches }: StaffBar): boolean {
  return stretches.every(({ event, printed }) => event === undefined && Object.keys(printed ?? {}).length === 0);
}

function isPlainRest(bar: StaffBar | undefined): boolean {
  return (
    bar !== undefined &&
    isSilent(bar) &&
    !(bar.open || bar.newKey || bar.newClef || bar.meter) &&
    bar.instructions.length + bar.marks.length === 0
  );
}

/**
 * A bar in pieces of at most `most` stretches, for a passage without bar lines or a narrow sheet: a line may end between
 * two pieces. Tuplets stay whole where they can.
 */
export function inPieces(bar: StaffBar, most: number): readonly StaffBar[] {
  const pieces: Stretch[][] = [[]];
  let tuplet = new Fraction(0);
  for (const stretch of bar.stretches) {
    const piece = pieces.at(-1) as Stretch[];
    const inTuplet = tupletOf(tuplet) !== undefined;
    if (piece.length >= (inTuplet ? 2 * most : most)) pieces.push([stretch]);
    else piece.push(stretch);
    tuplet = tupletOf(stretch.length) ? tuplet.add(stretch.length) : new Fraction(0);
  }
  const [first = [], ...others] = pieces;
  if (others.length === 0) return [bar];
  const last = others.length - 1;
  const { endsHairpin, ...whole } = bar;
  return [
    { ...whole, stretches: first, close: '', jumps: bar.jumps.filter((jump) => JUMP_SIGNS[jump]) },
    ...others.map(
      (stretches, index): StaffBar => ({
        number: bar.number,
        stretches,
        close: index === last ? bar.close : '',
        ...(bar.key && { key: bar.key }),
        ...(bar.clef && { clef: bar.clef }),
        ...(bar.ending && { ending: bar.ending }),
        ...(index === last && endsHairpin && { endsHairpin }),
        jumps: index === last ? bar.jumps.filter((jump) => !JUMP_SIGNS[jump]) : [],
        instructions: [],
        marks: [],
        continued: true,
      }),
    ),
  ];
}
