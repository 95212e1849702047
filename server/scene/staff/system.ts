import { Barline, Stave } from 'vexflow/core';
import { isStress } from '../../../grammar/marks';
import type { SceneEvent } from '../../protocol/scene';
import { outlined } from '../look';
import { num, tag } from '../svg';
import { barSigns } from './bar-signs';
import type { StaffBar } from './bars';
import { BARS_NUMBER_TOP, barsRest } from './bars-rest';
import { beamsBetween, pairsByTurns } from './by-turns';
import { chordOn } from './chord-on';
import { clefExtent } from './clef-extent';
import { arcAt, drawArc } from './curves';
import { type Engraved, type EngravedBar, extent, isSounding } from './engrave';
import { type Column, drawHairpin, hairpinChange, hairpins } from './hairpins';
import { headings } from './headings';
import {
  barNumberOver,
  dynamicUnder,
  SOUNDING_LINE,
  type Stack,
  signsOver,
  soundingOver,
  soundsAs,
  stackOver,
  wordsOver,
} from './labels';
import { fingeringMarks } from './marks';
import { OutlineContext } from './outline-context';
import type { SystemPlan } from './plan';
import { addSignature, keyName, signatureIn } from './signature';
import { phrases, slurs } from './slurs';
import { ties } from './ties';
import { tremoloOn } from './tremolo-on';

/** Place of one note's column on the staff, px. */
export interface NoteBox {
  readonly event: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface SystemDrawing {
  readonly markup: string;
  readonly top: number;
  readonly bottom: number;
  readonly boxes: readonly NoteBox[];
}

/** Bottom line of the staff, its top line being 0. */
const STAFF = 40;
/** Notes so near decide how low a dynamic stands, px. */
const NEAR = 30;
/** Height of a bar's or a tuplet's number, px. */
const NUMBER = 14;
/** Half of a note's column, px. */
const COLUMN = 15;

/** A stave without the engraver's own room above and below: the top line lies at 0. */
export function newStave(x: number, width: number): Stave {
  return new Stave(x, 0, width, { spaceAboveStaffLn: 0, spaceBelowStaffLn: 0 });
}

/** One line of music with all that stands over and under it. */
export function drawSystem(plan: SystemPlan, events: readonly SceneEvent[]): SystemDrawing {
  const context = new OutlineContext();
  const lead: string[] = [];
  let x = plan.left;
  const opens = new Map<EngravedBar, number>();
  const closes = new Map<EngravedBar, number>();
  plan.bars.forEach((engraved, index) => {
    const stave = newStave(x, plan.widths[index] as number);
    if (index === 0) addSignature(stave, plan.signature);
    else if (engraved.bar.newClef) stave.addClef(signatureIn(plan.usual, engraved.bar).clef, 'small');
    if (index > 0 && engraved.bar.newKey)
      stave.addKeySignature(keyName(engraved.bar.key), keyName(plan.bars[index - 1]?.bar.key));
    if (engraved.bar.meter !== undefined) stave.addTimeSignature(engraved.bar.meter);
    stave.setBegBarType(begBar(engraved.bar));
    stave.setEndBarType(endBar(engraved.bar.close, plan.last && index === plan.bars.length - 1));
    stave.setContext(context).drawWithStyle();
    engraved.voice.setStave(stave).setContext(context);
    for (const { note } of engraved.signs) note.setStave(stave);
    engraved.after?.setStave(stave);
    // The engraver can't space nothing.
    if (!engraved.bar.together) engraved.formatter.formatToStave([engraved.voice], stave);
    for (const beam of engraved.beams) beam.setContext(context).postFormat();
    opens.set(engraved, stave.getNoteStartX());
    x += plan.widths[index] as number;
    closes.set(engraved, x);
    if (engraved.bar.together) lead.push(barsRest(engraved.bar.together, stave.getNoteStartX(), x));
  });
  const clef = clefExtent(plan.signature.clef);
  const firstBar = plan.bars[0]?.bar;
  const numbered = firstBar !== undefined && firstBar.number > 1 && !firstBar.continued;
  const headTop = Math.min(clef.top, -4) - (numbered ? NUMBER : 0);
  if (numbered) lead.push(barNumberOver(firstBar.number, plan.left, Math.min(clef.top, -4) - 4));

  const signs = plan.bars.flatMap((bar) => bar.signs);
  const place = new Map(signs.map((sign) => [sign, { x: middleOf(sign), ...extent(sign) }]));

  const sounding = signs.filter(isSounding);
  const sounded = sounding.filter(({ first }) => first);
  const marks = fingeringMarks(
    sounded.map((sign) => events[sign.event] as SceneEvent),
    plan.board,
    plan.marking,
  );
  const bows = slurs(sounding, events, place);
  const arcs = [...bows, ...phrases(sounding, events, place, bows)];
  const stacks = sounded.map((sign) => {
    const at = place.get(sign)!;
    const event = events[sign.event] as SceneEvent;
    const overSlur = Math.min(...arcs.map((arc) => arcAt(arc, at.x) ?? Number.POSITIVE_INFINITY));
    const base = Math.min(at.top, -3, overSlur - 1);
    return { sign, at, event, ...stackOver(event, marks.get(event), at.x, base) };
  });
  const words: Stack[][] = [];
  for (const { event, at } of stacks) words.push([...wordsOver(event, marks.get(event), at.x, [...stacks, ...words.flat()])]);
  const overRests = signs.flatMap((sign): readonly Stack[] => {
    if (!sign.printed) return [];
    const x = middleOf(sign);
    const signed = signsOver(sign.printed, x, -3);
    return [signed, ...wordsOver(sign.printed, undefined, x, [signed, ...stacks, ...words.flat()])];
  });
  const tops = [...stacks, ...words.flat(), ...overRests, ...place.values()].map(({ top }) => top);
  const counts = plan.bars.some(({ bar }) => bar.together) ? [BARS_NUMBER_TOP] : [];
  const highest = Math.min(-12, headTop, ...tops, ...counts);
  const sounds = stacks.map(({ event }, index) => {
    const here = soundsAs(event);
    const before = stacks[index - 1];
    return before && soundsAs(before.event).join() === here.join() ? [] : here;
  });
  const brackets = stacks.map(({ at }, index) => soundingOver(sounds[index] ?? [], at.x, highest - 4));
  const lines = Math.max(0, ...sounds.map(({ length }) => length));
  let top = lines > 0 ? highest - 4 - lines * SOUNDING_LINE : highest;
  const over = barSigns(plan, top - 8);
  top -= over.height;
  const heads = headings(plan, opens, events, top - 8);
  if (heads.markup.length > 0) top -= heads.height;
  // The numbers of tuplets stand under their notes, and dynamics under both.
  const numbers = plan.bars.flatMap(({ tuplets }) =>
    tuplets.flatMap((tuplet) => {
      const bottom = tuplet.getYPosition() + NUMBER;
      return tuplet.getNotes().map((note) => ({ x: note.getAbsoluteX(), bottom }));
    }),
  );
  const lows = [...[...place.values()].map(({ x, bottom }) => ({ x, bottom })), ...numbers];
  let bottom = Math.max(STAFF + 4, clef.bottom + 2, ...lows.map((each) => each.bottom));
  // Dynamics and hairpins of one line of music stand at one height, under all that any of them would meet.
  const printed = signs.flatMap((sign) => {
    const what = isSounding(sign) ? sign.first && events[sign.event] : sign.printed;
    return what ? [{ what, x: middleOf(sign) }] : [];
  });
  const said = printed.flatMap(({ what: { marks, says }, x }) => {
    const dynamic = marks?.find(({ word }) => isStress(word))?.word ?? says;
    return dynamic === undefined ? [] : [{ dynamic, x: x - 6 }];
  });
  const columns = [
    ...printed.map(({ what, x }): Column => ({ x, change: hairpinChange(what) })),
    ...plan.bars.flatMap((bar): Column[] => (bar.bar.endsHairpin ? [{ x: closes.get(bar) ?? 0, change: 'end' }] : [])),
  ].sort((a, b) => a.x - b.x);
  const spans = hairpins(columns, plan.hairpin, x);
  const ranges = [...said.map(({ x }) => ({ left: x, right: x })), ...spans];
  const near = lows
    .filter(({ x }) => ranges.some(({ left, right }) => left - NEAR < x && x < right + NEAR))
    .map((low) => low.bottom);
  const under = Math.max(STAFF + 4, ...near) + 18;
  const dynamics = said.map(({ dynamic, x }) => dynamicUnder(dynamic, x, under));
  const wedges = spans.map((span) => drawHairpin(span, under));
  if (dynamics.length + wedges.length > 0) bottom = Math.max(bottom, under + 6);

  const boxes = stacks.map(({ sign, at }) => ({
    event: sign.event,
    x: at.x - COLUMN,
    y: top,
    width: 2 * COLUMN,
    height: bottom - top,
  }));
  const notes = signs.map((sign) => {
    const own = new OutlineContext();
    sign.note.setContext(own).drawWithStyle();
    if (!isSounding(sign)) return own.markup;
    const index = stacks.findIndex((stack) => stack.sign === sign);
    const slide =
      (sign.first && events[sign.event]?.slide ? slideInto(sign) : '') +
      (sign.first ? chordOn(sign.note, events[sign.event]) : '') +
      tremoloOn(sign.note, events[sign.event]);
    const labels =
      index < 0 ? '' : [stacks[index], ...(words[index] ?? [])].map((stack) => stack?.markup).join('') + (brackets[index] ?? '');
    const box = boxes[index];
    const hit = box
      ? tag('rect', {
          class: 'pw-hit',
          x: box.x,
          y: box.y,
          width: box.width,
          height: box.height,
          rx: 5,
          fill: 'none',
          'pointer-events': 'all',
        })
      : '';
    return tag('g', { class: 'pw-event', 'data-event': sign.event }, hit + own.markup + slide + labels);
  });
  for (const { beams, tuplets, after } of plan.bars) {
    for (const modifier of after?.getModifiers() ?? []) modifier.setContext(context).draw();
    for (const each of [...beams, ...tuplets]) each.setContext(context).drawWithStyle();
  }
  const turns = pairsByTurns(sounding, events).map(([one, two]) =>
    beamsBetween(one.note, two.note, events[two.event] as SceneEvent),
  );
  for (const tie of ties(signs, events)) tie.setContext(context).drawWithStyle();
  return {
    markup:
      lead.join('') +
      context.markup +
      notes.join('') +
      turns.join('') +
      arcs.map(drawArc).join('') +
      heads.markup.join('') +
      overRests.map(({ markup }) => markup).join('') +
      over.markup +
      dynamics.join('') +
      wedges.join(''),
    top,
    bottom,
    boxes,
  };
}

/** A stroke up into the head of a note that is slid into. */
function slideInto({ note }: Engraved): string {
  const x = note.getNoteHeadBeginX() - 1;
  // Below an accidental, which stands just there.
  const y = Math.min(...note.getYs()) + 2;
  return tag('path', {
    ...outlined('ink', 1.6, 'pw-slide'),
    'stroke-linecap': 'round',
    d: `M${num(x - 13)} ${num(y + 10)}L${num(x)} ${num(y)}`,
  });
}

function middleOf({ note }: Engraved): number {
  return (note.getNoteHeadBeginX() + note.getNoteHeadEndX()) / 2;
}

/** The sign that a bar begins with; any other bar line is drawn by the bar before. */
export function begBar({ open }: StaffBar): number {
  return open ? Barline.type.REPEAT_BEGIN : Barline.type.NONE;
}

function endBar(close: string, final: boolean): number {
  if (close === ':|') return Barline.type.REPEAT_END;
  if (close === '||') return final ? Barline.type.END : Barline.type.DOUBLE;
  return close === '' || close === '|:' ? Barline.type.NONE : Barline.type.SINGLE;
}

/** Moves a system's drawing down to its place on the sheet. */
export function moved(markup: string, y: number): string {
  return tag('g', { transform: `translate(0 ${num(y)})` }, markup);
}
