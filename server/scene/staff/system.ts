import { Barline, Stave, StaveTie } from 'vexflow/core';
import type { SceneEvent } from '../../protocol/scene';
import { LIGHT, outlined } from '../look';
import { num, tag } from '../svg';
import { type Arc, arcAt, arcOver, drawArc } from './curves';
import { type Engraved, type EngravedBar, extent, keysOf } from './engrave';
import { dynamicUnder, instructionOver, soundingOver, stackOver, tempoOver } from './labels';
import { OutlineContext } from './outline-context';
import { addSignature, type Signature } from './signature';

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

export interface SystemPlan {
  readonly bars: readonly EngravedBar[];
  readonly widths: readonly number[];
  readonly left: number;
  /** What a full line takes, px; a short one leaves its words the rest. */
  readonly wide: number;
  readonly signature: Signature;
  /** True for the passage's last system. */
  readonly last: boolean;
}

/** Bottom line of the staff, its top line being 0. */
const STAFF = 40;
/** Between lines of text over a system, px; mean width of a letter there; room that a tempo mark takes. */
const LINE = 17;
const INSTRUCTION_LETTER = 6.4;
const TEMPO_WIDTH = 72;
/** Notes so near decide how low a dynamic stands, px. */
const NEAR = 60;
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
  plan.bars.forEach((engraved, index) => {
    const stave = newStave(x, plan.widths[index] as number);
    if (index === 0) addSignature(stave, plan.signature);
    if (engraved.bar.meter !== undefined) stave.addTimeSignature(engraved.bar.meter);
    if (plan.bars[index - 1]?.bar.close === '|:') stave.setBegBarType(Barline.type.REPEAT_BEGIN);
    else stave.setBegBarType(Barline.type.NONE);
    stave.setEndBarType(endBar(engraved.bar.close, plan.last && index === plan.bars.length - 1));
    stave.setContext(context).drawWithStyle();
    engraved.voice.setStave(stave).setContext(context);
    for (const { note } of engraved.signs) note.setStave(stave);
    engraved.formatter.formatToStave([engraved.voice], stave);
    for (const beam of engraved.beams) beam.setContext(context).postFormat();
    opens.set(engraved, stave.getNoteStartX());
    x += plan.widths[index] as number;
  });
  const firstBar = plan.bars[0]?.bar;
  if (firstBar && firstBar.number > 1 && !firstBar.continued) {
    lead.push(
      tag('text', { x: plan.left, y: -7, class: 'pw-fill-faint', fill: LIGHT.faint, 'font-size': 10 }, String(firstBar.number)),
    );
  }

  const signs = plan.bars.flatMap((bar) => bar.signs);
  const place = new Map(signs.map((sign) => [sign, { x: middleOf(sign), ...extent(sign) }]));
  const arcs = slurs(signs, events, place);
  const sounded = signs.filter(({ first }) => first);
  const stacks = sounded.map((sign) => {
    const at = place.get(sign)!;
    const event = events[sign.event] as SceneEvent;
    const overSlur = Math.min(...arcs.map((arc) => arcAt(arc, at.x) ?? Number.POSITIVE_INFINITY));
    const base = Math.min(at.top, -3, overSlur - 1);
    return { sign, at, event, ...stackOver(event, events[event.index - 1], at.x, base) };
  });
  const highest = Math.min(-12, ...stacks.map(({ top }) => top), ...[...place.values()].map(({ top }) => top));
  const brackets = stacks.map(({ event, at }) => soundingOver(event, at.x, highest - 4));
  let top = brackets.some((bracket) => bracket !== '') ? highest - 16 : highest;
  const lines = headings(plan, opens, events, top - 8);
  if (lines.markup.length > 0) top -= lines.height;
  let bottom = Math.max(
    STAFF + 4,
    ...[...place.values()].map((at) => at.bottom),
    ...(plan.bars.some(({ tuplets }) => tuplets.length > 0) ? [STAFF + 26] : []),
  );
  const dynamics = stacks.flatMap(({ event, at }) => {
    if (event.dynamic === events[event.index - 1]?.dynamic) return [];
    const near = [...place.values()].filter(({ x }) => Math.abs(x - at.x) < NEAR).map((other) => other.bottom);
    return [dynamicUnder(event.dynamic, at.x - 6, Math.max(STAFF + 4, ...near) + 18)];
  });
  if (dynamics.length > 0) bottom += 24;

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
    if (sign.silent) return own.markup;
    const index = stacks.findIndex((stack) => stack.sign === sign);
    const slide = sign.first && events[sign.event]?.slide ? slideInto(sign) : '';
    const labels = index < 0 ? '' : (stacks[index]?.markup ?? '') + (brackets[index] ?? '');
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
  for (const { beams, tuplets } of plan.bars) {
    for (const each of [...beams, ...tuplets]) each.setContext(context).drawWithStyle();
  }
  for (const tie of ties(signs, events)) tie.setContext(context).drawWithStyle();
  return {
    markup:
      lead.join('') + context.markup + notes.join('') + arcs.map(drawArc).join('') + lines.markup.join('') + dynamics.join(''),
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

function endBar(close: string, final: boolean): number {
  if (close === ':|') return Barline.type.REPEAT_END;
  if (close === '||') return final ? Barline.type.END : Barline.type.DOUBLE;
  return close === '' || close === '|:' ? Barline.type.NONE : Barline.type.SINGLE;
}

/** Tempo where it is new and instructions, over the system; a long instruction takes several lines, the lowest at `y`. */
function headings(
  plan: SystemPlan,
  opens: ReadonlyMap<EngravedBar, number>,
  events: readonly SceneEvent[],
  y: number,
): { readonly markup: readonly string[]; readonly height: number } {
  const end =
    plan.left +
    Math.max(
      plan.wide,
      plan.widths.reduce((sum, width) => sum + width, 0),
    );
  let lines = 0;
  const markup = plan.bars.flatMap((engraved) => {
    const tempos = engraved.signs.filter(({ first, event }) => first && newTempo(events, event));
    const x = (opens.get(engraved) ?? plan.left) + (tempos.length > 0 ? TEMPO_WIDTH : 0);
    const texts = engraved.bar.instructions.flatMap((text) => wrapped(text, end - x));
    lines = Math.max(lines, texts.length, tempos.length > 0 ? 1 : 0);
    const first = y - (texts.length - 1) * LINE;
    return [
      ...tempos.map(({ event, note }) =>
        tempoOver((events[event] as SceneEvent).tempo, note.getNoteHeadBeginX(), Math.min(first, y)),
      ),
      ...texts.map((text, row) => instructionOver(text, x, first + row * LINE)),
    ];
  });
  return { markup, height: lines > 0 ? 8 + lines * LINE : 0 };
}

function newTempo(events: readonly SceneEvent[], index: number): boolean {
  const here = events[index]?.tempo;
  const before = events[index - 1]?.tempo;
  return before === undefined || before.bpm !== here?.bpm || before.beat !== here.beat;
}

/** Breaks a text into lines of about this many px. */
function wrapped(text: string, width: number): readonly string[] {
  const most = Math.max(12, Math.floor(width / INSTRUCTION_LETTER));
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const line = lines.at(-1);
    if (line !== undefined && line.length + 1 + word.length <= most) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** One arc for every bow stroke over several notes, as far as it lies in this system. */
function slurs(
  signs: readonly Engraved[],
  events: readonly SceneEvent[],
  place: ReadonlyMap<Engraved, { x: number; top: number }>,
): readonly Arc[] {
  const arcs: Arc[] = [];
  let run: { x: number; y: number }[] = [];
  // A note held over has its tie; only a stroke with something new in it is a slur.
  let news = false;
  const close = (): void => {
    const arc = news ? arcOver(run) : undefined;
    if (arc) arcs.push(arc);
    run = [];
    news = false;
  };
  for (const sign of signs) {
    if (sign.silent) continue;
    const { x, top } = place.get(sign)!;
    const event = events[sign.event];
    const slurredInto = events[sign.event - 1]?.slurred ?? false;
    if (sign.first && !slurredInto) close();
    else if (sign.first && !(event?.notes.length && event.notes.every(({ held }) => held))) news = true;
    if (slurredInto || event?.slurred) run.push({ x, y: top });
  }
  close();
  return arcs;
}

/** Ties within an event that is written with several signs, and from notes held over into the next event. */
function ties(signs: readonly Engraved[], events: readonly SceneEvent[]): readonly StaveTie[] {
  return signs.flatMap((sign, index) => {
    if (sign.silent) return [];
    const event = events[sign.event] as SceneEvent;
    const next = signs[index + 1];
    if (sign.runsOn) {
      const all = sign.note.getKeys().map((_, key) => key);
      const firstNote = { firstNote: sign.note, firstIndexes: all, lastIndexes: all };
      return [new StaveTie(next && next.event === sign.event ? { ...firstNote, lastNote: next.note } : firstNote)];
    }
    const follower = events[event.index + 1];
    const held = follower?.notes.filter(({ held }) => held).map(({ sounding }) => sounding) ?? [];
    if (!follower || held.length === 0) return [];
    const here = keysHolding(event, held);
    const there = keysHolding(follower, held);
    if (next && !next.silent && next.event === follower.index) {
      return [new StaveTie({ firstNote: sign.note, lastNote: next.note, firstIndexes: here, lastIndexes: there })];
    }
    return [new StaveTie({ firstNote: sign.note, firstIndexes: here, lastIndexes: here })];
  });
}

/** Which noteheads belong to the notes with these sounding pitches. */
function keysHolding(event: SceneEvent, sounding: readonly string[]): number[] {
  return keysOf(event).flatMap(({ note }, key) => (sounding.includes(event.notes[note]?.sounding ?? '') ? [key] : []));
}

/** Moves a system's drawing down to its place on the sheet. */
export function moved(markup: string, y: number): string {
  return tag('g', { transform: `translate(0 ${num(y)})` }, markup);
}
