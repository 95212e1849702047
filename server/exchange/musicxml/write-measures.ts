import Fraction from 'fraction.js';
import { isStress, levelAfter } from '../../../grammar/marks';
import type { Key } from '../../music/interval';
import type { Tempo } from '../../music/meter';
import type { NoteValue } from '../../music/note-values';
import { alike } from '../../passage/alike';
import { isByTurns } from '../../passage/ornament';
import type { Bar, BarRest, Passage, PassageEvent } from '../../passage/passage';
import { barPieces } from '../../scene/bar-pieces';
import type { Clef } from '../../scene/staff/clef';
import type { Solution } from '../../solver/solution';
import { Accidentals } from './accidentals';
import { beamsOf } from './beams';
import {
  attributesOf,
  clefMark,
  dynamicMark,
  jumpMark,
  keyMark,
  meterMark,
  rehearsalMark,
  restStyle,
  scordaturaMark,
  tempoMark,
  usualClef,
  wayMark,
  wedge,
  wordsMark,
} from './marks';
import { flagsOf, writtenValues } from './note-values';
import type { Part } from './part';
import { JUMP_PRINTS } from './signs';
import { slursOf } from './slurs';
import { eventNotes, type Placing, restNote } from './write-note';
import { text, type Xml, xmlElement } from './xml';

/** What is in force from bar to bar. */
interface Running {
  tempo: Tempo | undefined;
  meter: string;
  key: Key | undefined;
  clef: Clef;
  hairpin: 'crescendo' | 'diminuendo' | undefined;
}

/** One stretch of a bar that one note value shows. */
interface Piece {
  readonly onset: Fraction;
  readonly value: NoteValue;
  readonly event?: number;
  readonly rest?: BarRest;
  readonly first: boolean;
  readonly last: boolean;
  readonly grace?: true;
}

/** The `<measure>` elements of a passage. */
export function writeMeasures(passage: Passage, solution: Solution | undefined): readonly Xml[] {
  const part: Part = {
    passage,
    solution,
    divisions: divisionsOf(passage),
    accidentals: new Accidentals(passage.key),
    clef: usualClef(passage),
  };
  const running: Running = {
    tempo: undefined,
    meter: '',
    key: passage.key,
    clef: usualClef(passage),
    hairpin: undefined,
  };
  const slurs = slursOf(passage);
  // A part has at least one measure, even of a passage that has no music yet.
  if (passage.bars.length === 0) return [xmlElement('measure', { number: '1' })];
  return passage.bars.map((bar, index) => writeMeasure(part, bar, index, running, slurs));
}

function writeMeasure(part: Part, bar: Bar, index: number, running: Running, slurs: ReturnType<typeof slursOf>): Xml {
  const { passage } = part;
  const key = bar.key ?? passage.key;
  const clef = bar.clef ?? part.clef;
  part.accidentals.newBar(key);
  const content: (Xml | undefined)[] = [];
  const opens = bar.ending !== undefined && bar.ending !== passage.bars[index - 1]?.ending;
  const opening = opens ? xmlElement('ending', { number: (bar.ending ?? []).join(', '), type: 'start' }) : undefined;
  if (bar.open) content.push(barline('left', 'heavy-light', 'forward', opening));
  else if (opening) content.push(barline('left', 'regular', undefined, opening));
  const atStart = (bar.jumps ?? []).filter((jump) => JUMP_PRINTS[jump].sign);
  const atEnd = (bar.jumps ?? []).filter((jump) => !JUMP_PRINTS[jump].sign);
  const meter = bar.meter ? `${bar.meter.count}/${bar.meter.unit}` : 'free';
  if (index === 0) content.push(attributesOf(part, bar), scordaturaMark(passage));
  else if (meter !== running.meter || !alike(key, running.key) || clef !== running.clef || bar.together !== undefined) {
    content.push(
      xmlElement(
        'attributes',
        {},
        alike(key, running.key) ? undefined : keyMark(key),
        meter === running.meter ? undefined : meterMark(bar),
        clef === running.clef ? undefined : clefMark(clef),
        restStyle(bar),
      ),
    );
  }
  running.clef = clef;
  running.meter = meter;
  running.key = key;
  for (const jump of atStart) content.push(jumpMark(jump));
  for (const { text: words, mark } of passage.instructions.filter((i) => i.bar === bar.number))
    content.push(mark ? rehearsalMark(words) : wordsMark(words));

  // A passage changes its tempo between bars only.
  const tempo = passage.events.slice(bar.firstEvent, bar.endEvent).find((e) => e.spec.notes.length > 0)?.tempo;
  if (tempo && !(running.tempo?.beat.equals(tempo.beat) && running.tempo.bpm === tempo.bpm)) {
    content.push(tempoMark(tempo));
    running.tempo = tempo;
  }
  const pieces = barPieces(passage, bar).flatMap(({ onset, duration, event, rest }) => {
    let at: Fraction = onset;
    const grace = event === undefined ? undefined : passage.events[event]?.grace;
    const values = grace
      ? writtenValues(grace).slice(0, 1)
      : (wholeBarRest(bar, duration, event) ?? valuesOf(passage, event, duration));
    return values.map((value, i): Piece => {
      const piece = {
        onset: at,
        value,
        first: i === 0,
        last: i === values.length - 1,
        ...(event !== undefined && { event }),
        ...(rest && { rest }),
        ...(grace && { grace: true as const }),
      };
      if (!grace) at = at.add(value.length);
      return piece;
    });
  });
  const timed = pieces.filter((p) => !p.grace);
  const place = new Map(timed.map((piece, i) => [piece, i]));
  const beams = beamsOf(
    timed.map((p) => ({ onset: p.onset, flags: flagsOf(p.value), rest: p.event === undefined })),
    bar.meter,
  );
  const tuplets = tupletEdges(timed);
  for (const piece of pieces) {
    const i = place.get(piece) ?? -1;
    const placing: Placing = { value: piece.value, beams: beams[i] ?? [], tuplet: tuplets[i] ?? [] };
    if (piece.event === undefined) {
      const printed = piece.first ? piece.rest : undefined;
      if (printed) content.push(...directionsBefore(printed, running));
      content.push(restNote(part, placing, piece.value.length.equals(bar.length), printed));
      continue;
    }
    const event = passage.events[piece.event] as PassageEvent;
    if (piece.first) content.push(...directionsBefore(event, running));
    content.push(...eventNotes(part, piece.event, { ...placing, first: piece.first, last: piece.last }, slurs));
  }
  const last = index === passage.bars.length - 1;
  const ends = bar.ending !== undefined && bar.ending !== passage.bars[index + 1]?.ending;
  const times = bar.ending?.join(', ');
  if (running.hairpin && (last || bar.endsHairpin)) {
    content.push(wedge('stop'));
    running.hairpin = undefined;
  }
  for (const jump of atEnd) content.push(jumpMark(jump));
  const ending =
    ends && times ? xmlElement('ending', { number: times, type: bar.close === ':|' ? 'stop' : 'discontinue' }) : undefined;
  if (bar.close === ':|') content.push(barline('right', 'light-heavy', 'backward', ending, bar.ending));
  else if (bar.close === '||') content.push(barline('right', last ? 'light-heavy' : 'light-light', undefined, ending));
  else if (ending) content.push(barline('right', 'regular', undefined, ending));
  return xmlElement('measure', { number: String(bar.number), ...(bar.number === 0 && { implicit: 'yes' }) }, ...content);
}

/** Dynamics, hairpins and ways of playing that stand before a note or rest. */
function directionsBefore(
  { says, marks = [], directions = [] }: Pick<PassageEvent, 'says' | 'marks' | 'directions'>,
  running: Running,
): readonly Xml[] {
  const found: Xml[] = [];
  const stress = marks.find(({ word }) => isStress(word))?.word;
  const begins = directions.findLast((word) => word === 'crescendo' || word === 'diminuendo');
  const ends = directions.some((word) => word === 'end crescendo' || word === 'end diminuendo');
  if (running.hairpin && (says || ends || begins || (stress && isStress(stress) && levelAfter(stress)))) {
    found.push(wedge('stop'));
    running.hairpin = undefined;
  }
  if (stress && isStress(stress)) found.push(dynamicMark(stress));
  if (says) found.push(dynamicMark(says));
  for (const word of directions) {
    const way = wayMark(word);
    if (way) found.push(way);
  }
  if (begins) {
    found.push(wedge(begins));
    running.hairpin = begins;
  }
  return found;
}

/** The note values of a piece of a bar; each of two notes by turns is written with the value of both. */
function valuesOf(passage: Passage, event: number | undefined, duration: Fraction): readonly NoteValue[] {
  if (event === undefined || !isByTurns(passage, event)) return writtenValues(duration);
  return writtenValues(duration.mul(2)).map((value) => ({ ...value, length: value.length.div(2) }));
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
  const take = (duration: Fraction, event: number | undefined) => {
    for (const { length } of valuesOf(passage, event, duration)) {
      const { d } = length.mul(4);
      divisions = (divisions / gcd(divisions, d)) * d;
      if (divisions > MOST) return;
    }
  };
  for (const bar of passage.bars) {
    for (const { duration, event } of barPieces(passage, bar)) {
      take(duration, event);
      if (divisions > MOST) return 720_720;
    }
  }
  return Number(divisions);
}

function gcd(a: bigint, b: bigint): bigint {
  return b === 0n ? a : gcd(b, a % b);
}

function barline(
  location: 'left' | 'right',
  style: string,
  repeat?: 'forward' | 'backward',
  ending?: Xml,
  times: readonly number[] = [],
): Xml {
  // An ending that is played several times: so often and once more for the last.
  const several = times.length > 1 && { times: String(Math.max(...times) + 1) };
  return xmlElement(
    'barline',
    { location },
    text('bar-style', style),
    ending,
    repeat ? xmlElement('repeat', { direction: repeat, ...several }) : undefined,
  );
}
