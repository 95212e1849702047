import Fraction from 'fraction.js';
import type { Dynamic } from '../../../grammar/tree';
import type { NoteValue } from '../../music/note-values';
import { barPieces } from '../../passage/bar-pieces';
import type { Bar, Passage, PassageEvent, Tempo } from '../../passage/passage';
import type { Solution } from '../../solver/solution';
import { Accidentals } from './accidentals';
import { beamsOf } from './beams';
import { attributesOf, dynamicMark, meterMark, scordaturaMark, tempoMark, wordsMark } from './marks';
import { flagsOf, noteValues } from './note-values';
import type { Part } from './part';
import { slursOf } from './slurs';
import { eventNotes, type Placing, restNote } from './write-note';
import { element, text, type Xml } from './xml';

/** What is in force from bar to bar; a passage that says no dynamic is mf. */
interface Running {
  tempo: Tempo | undefined;
  dynamic: Dynamic;
  meter: string;
}

/** One stretch of a bar that one note value shows. */
interface Piece {
  readonly onset: Fraction;
  readonly value: NoteValue;
  readonly event?: number;
  readonly first: boolean;
  readonly last: boolean;
}

/** The `<measure>` elements of a passage. */
export function writeMeasures(passage: Passage, solution: Solution | undefined): readonly Xml[] {
  const part: Part = { passage, solution, divisions: divisionsOf(passage), accidentals: new Accidentals(passage.key) };
  const running: Running = { tempo: undefined, dynamic: 'mf', meter: '' };
  const slurs = slursOf(passage);
  // A part has at least one measure, even of a passage that has no music yet.
  if (passage.bars.length === 0) return [element('measure', { number: '1' })];
  return passage.bars.map((bar, index) => writeMeasure(part, bar, index, running, slurs));
}

function writeMeasure(part: Part, bar: Bar, index: number, running: Running, slurs: ReturnType<typeof slursOf>): Xml {
  const { passage } = part;
  part.accidentals.newBar();
  const content: (Xml | undefined)[] = [];
  if (bar.open) content.push(barline('left', 'heavy-light', 'forward'));
  const meter = bar.meter ? `${bar.meter.count}/${bar.meter.unit}` : 'free';
  if (index === 0) content.push(attributesOf(part, bar), scordaturaMark(passage));
  else if (meter !== running.meter) content.push(element('attributes', {}, meterMark(bar)));
  running.meter = meter;
  for (const { text: words } of passage.instructions.filter((i) => i.bar === bar.number)) content.push(wordsMark(words));

  // A passage changes its tempo between bars only.
  const tempo = passage.events.slice(bar.firstEvent, bar.endEvent).find((e) => e.spec.notes.length > 0)?.tempo;
  if (tempo && !(running.tempo?.beat.equals(tempo.beat) && running.tempo.bpm === tempo.bpm)) {
    content.push(tempoMark(tempo));
    running.tempo = tempo;
  }
  const pieces = barPieces(passage, bar).flatMap(({ onset, duration, event }) => {
    let at = onset;
    const values = wholeBarRest(bar, duration, event) ?? noteValues(duration);
    return values.map((value, i): Piece => {
      const piece = { onset: at, value, first: i === 0, last: i === values.length - 1, ...(event !== undefined && { event }) };
      at = at.add(value.length);
      return piece;
    });
  });
  const beams = beamsOf(
    pieces.map((p) => ({ onset: p.onset, flags: flagsOf(p.value), rest: p.event === undefined })),
    bar.meter,
  );
  const tuplets = tupletEdges(pieces);
  for (const [i, piece] of pieces.entries()) {
    const placing: Placing = { value: piece.value, beams: beams[i] ?? [], tuplet: tuplets[i] ?? [] };
    if (piece.event === undefined) {
      content.push(restNote(part, placing, piece.value.length.equals(bar.length)));
      continue;
    }
    const event = passage.events[piece.event] as PassageEvent;
    if (piece.first && event.spec.dynamic !== running.dynamic) {
      content.push(dynamicMark(event.spec.dynamic));
      running.dynamic = event.spec.dynamic;
    }
    content.push(...eventNotes(part, piece.event, { ...placing, first: piece.first, last: piece.last }, slurs));
  }
  const last = index === passage.bars.length - 1;
  if (bar.close === ':|') content.push(barline('right', 'light-heavy', 'backward'));
  else if (bar.close === '||') content.push(barline('right', last ? 'light-heavy' : 'light-light'));
  return element('measure', { number: String(bar.number), ...(bar.number === 0 && { implicit: 'yes' }) }, ...content);
}

function wholeBarRest(bar: Bar, duration: Fraction, event: number | undefined): readonly NoteValue[] | undefined {
  return event === undefined && duration.equals(bar.length) ? [{ length: duration, dots: 0 }] : undefined;
}

/** Where tuplet brackets begin and end: a group ends as soon as its notes together are a plain length again. */
function tupletEdges(pieces: readonly Piece[]): readonly (readonly ('start' | 'stop')[])[] {
  const edges: ('start' | 'stop')[][] = pieces.map(() => []);
  let open: { readonly notes: number; sum: Fraction } | undefined;
  for (const [i, { value }] of pieces.entries()) {
    const { tuplet } = value;
    if (open && open.notes !== tuplet?.notes) {
      edges[i - 1]?.push('stop');
      open = undefined;
    }
    if (!tuplet) continue;
    if (!open) {
      edges[i]?.push('start');
      open = { notes: tuplet.notes, sum: new Fraction(0) };
    }
    open.sum = open.sum.add(value.length);
    if ((open.sum.d & (open.sum.d - 1n)) === 0n) {
      edges[i]?.push('stop');
      open = undefined;
    }
  }
  if (open) edges.at(-1)?.push('stop');
  return edges;
}

/** Fine enough for every duration; where that would be absurdly fine, so fine that rounding stays far below hearing. */
function divisionsOf(passage: Passage): number {
  const MOST = 1_000_000n;
  let divisions = 1n;
  const take = (duration: Fraction) => {
    for (const { length } of noteValues(duration)) {
      const { d } = length.mul(4);
      divisions = (divisions / gcd(divisions, d)) * d;
      if (divisions > MOST) return;
    }
  };
  for (const bar of passage.bars) {
    for (const { duration } of barPieces(passage, bar)) {
      take(duration);
      if (divisions > MOST) return 720_720;
    }
  }
  return Number(divisions);
}

function gcd(a: bigint, b: bigint): bigint {
  return b === 0n ? a : gcd(b, a % b);
}

function barline(location: 'left' | 'right', style: string, repeat?: 'forward' | 'backward'): Xml {
  return element(
    'barline',
    { location },
    text('bar-style', style),
    repeat ? element('repeat', { direction: repeat }) : undefined,
  );
}
