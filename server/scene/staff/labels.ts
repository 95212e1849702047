import Fraction from 'fraction.js';
import { quotedText } from '../../../grammar/marks';
import type { SceneEvent } from '../../protocol/scene';
import { filled, outlined } from '../look';
import { escaped, tag } from '../svg';
import { printedPitch } from '../words';
import type { Printed } from './hairpins';
import { MARK_SIGNS, PRINTED_WORDS, TRILL_ACCIDENTALS } from './mark-signs';
import type { Marks } from './marks';
import { sign } from './outline-context';
import { OUTLINES } from './outlines';
import { printedNotes, soundsElsewhere } from './printed';
import { printedValues } from './rhythm';

/** Em of signs at the size of the staff: a staff space is 10 px. */
export const EM = 40;
const SIGN = { circle: 0xe614, down: 0xe610, up: 0xe612, thumb: 0xe624, dot: 0xe1e7 } as const;
const DIGIT = 0xed10;
const DYNAMIC: Readonly<Record<string, number>> = { p: 0xe520, m: 0xe521, f: 0xe522, r: 0xe523, s: 0xe524, z: 0xe525 };
const TEXT_NOTE: Readonly<Record<number, number>> = { 1: 0xe1d2, 2: 0xe1d3, 4: 0xe1d5, 8: 0xe1d7, 16: 0xe1d9 };
const SERIF = '"Iowan Old Style","Palatino Linotype",Palatino,Georgia,"Times New Roman",serif';

function centred(code: number, x: number, bottom: number, em: number): { readonly markup: string; readonly top: number } {
  const { box } = OUTLINES.get(code) ?? { box: [0, 0, 0, 0] as const };
  const size = em / 1000;
  const left = x - ((box[0] + box[2]) / 2) * size;
  const baseline = bottom - box[3] * size;
  return { markup: sign(code, left, baseline, em), top: baseline + box[1] * size };
}

/** Labels over a note, and the room they take. */
export interface Stack {
  readonly markup: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
}

/** Mean width of a letter of a string's name, of a position, of a way of playing, px; half the width of a finger. */
const LETTER = { string: 5.6, position: 5.2, word: 6.4 } as const;
const FINGER = 6;

/**
 * What stands over a note, from the note outward: articulations, the harmonic's circle, the fingers (the one that touches over the
 * one that stops), the bow, ornaments and the fermata, the string where it is new.
 */
export function stackOver(event: SceneEvent, marks: Marks | undefined, x: number, base: number): Stack {
  const parts: string[] = [];
  let y = base - 4;
  const put = (code: number, em: number, gap: number): void => {
    const drawn = centred(code, x, y, em);
    parts.push(drawn.markup);
    y = drawn.top - gap;
  };
  const write = (text: string, look: Readonly<Record<string, string | number>>, height: number): void => {
    parts.push(tag('text', { x, y: y - 1, 'text-anchor': 'middle', ...look }, text));
    y -= height;
  };
  const signs = (event.marks ?? []).flatMap(({ word }) => MARK_SIGNS[word] ?? []);
  for (const code of signs) if (isArticulation(code)) put(code, EM, 4);
  for (const { circle } of printedNotes(event)) if (circle) put(SIGN.circle, EM * 0.9, 4);
  for (const finger of marks?.fingers ?? []) {
    if (finger === event.extends) parts.push(extensionBeside(x, y));
    put(finger === 'T' ? SIGN.thumb : DIGIT + Number(finger), EM * 0.82, 3);
  }
  if (event.bow) put(SIGN[event.bow], EM * 0.85, 4);
  for (const { word } of event.marks ?? []) {
    const code = MARK_SIGNS[word];
    if (code === undefined || isArticulation(code)) continue;
    put(code, EM * 0.9, 4);
    const accidental = TRILL_ACCIDENTALS[word];
    if (accidental !== undefined) put(accidental, EM * 0.6, 4);
  }
  if (marks?.strings) write(marks.strings, { ...filled('ink'), 'font-family': SERIF, 'font-size': 12 }, 14);
  if (event.problem !== undefined) write('?', { ...filled('warn'), 'font-size': 15, 'font-weight': 700 }, 16);
  const half = Math.max(FINGER, ((marks?.strings?.length ?? 0) * LETTER.string) / 2);
  return { markup: parts.join(''), left: x - half, right: x + half, top: y };
}

/** What stands over a rest. */
export function signsOver({ marks }: Printed, x: number, base: number): Stack {
  let top = base - 4;
  const drawn = (marks ?? []).flatMap(({ word }) => {
    const code = MARK_SIGNS[word];
    if (code === undefined) return [];
    const { markup, top: next } = centred(code, x, top, EM * 0.9);
    top = next - 4;
    return [markup];
  });
  return { markup: drawn.join(''), left: x - FINGER, right: x + FINGER, top };
}

/** On top of a note's stack: the position where it is new, the way of playing. These are wide, so they rise over what stands beside it. */
export function wordsOver(
  event: Printed,
  marks: Marks | undefined,
  x: number,
  stacks: readonly Pick<Stack, 'left' | 'right' | 'top'>[],
): readonly Stack[] {
  const placed: Stack[] = [];
  const place = (left: number, right: number, height: number, draw: (bottom: number) => string): void => {
    const bottom = Math.min(
      ...[...stacks, ...placed].filter((other) => other.left < right && other.right > left).map(({ top }) => top),
    );
    placed.push({ markup: draw(bottom), left, right, top: bottom - height });
  };
  const position = marks?.position;
  if (position) {
    const half = (position.length * LETTER.position) / 2;
    const look = { ...filled('ink'), 'font-family': SERIF, 'font-size': 10.5, 'font-style': 'italic', 'text-anchor': 'middle' };
    place(x - half, x + half, 13, (bottom) => tag('text', { x, y: bottom - 1, ...look }, escaped(position)));
  }
  for (const word of (event.directions ?? []).flatMap((said) => quotedText(said) ?? PRINTED_WORDS[said] ?? []))
    place(x - 6, x - 6 + word.length * LETTER.word, 15, (bottom) => instructionOver(word, x - 6, bottom - 2));
  return placed;
}

/** Dots, lines, wedges and accents stand next to the note, whatever else there is. */
function isArticulation(code: number): boolean {
  return code >= 0xe4a0 && code <= 0xe4af;
}

/** The trade's sign before a finger with which a cellist's hand opens. */
function extensionBeside(x: number, y: number): string {
  return tag('text', { x: x - 6, y, ...filled('ink'), 'font-family': SERIF, 'font-size': 12, 'text-anchor': 'end' }, 'x');
}

/** What sounds where the printed notes do not say it, the highest first. */
export function soundsAs(event: SceneEvent): readonly string[] {
  return event.notes
    .filter(soundsElsewhere)
    .sort((a, b) => b.hz - a.hz)
    .map((note) => printedPitch(note.sounding));
}

/** Height of a line of what sounds, px. */
export const SOUNDING_LINE = 12;

/** What sounds, in brackets, one over the other as on a staff; the lowest at `y`. */
export function soundingOver(sounding: readonly string[], x: number, y: number): string {
  const look = { ...filled('touch'), 'font-size': 11, 'text-anchor': 'middle' };
  return sounding
    .map((pitch, row) => tag('text', { x, y: y - (sounding.length - 1 - row) * SOUNDING_LINE, ...look }, `(${escaped(pitch)})`))
    .join('');
}

/** `mf` in the signs of the trade, its left edge at x. */
export function dynamicUnder(dynamic: string, x: number, y: number): string {
  let at = x;
  return [...dynamic]
    .map((letter) => {
      const code = DYNAMIC[letter] as number;
      const markup = sign(code, at, y, EM * 0.9);
      at += ((OUTLINES.get(code)?.advance ?? 0) * EM * 0.9) / 1000;
      return markup;
    })
    .join('');
}

/** «quarter note = 96», its left edge at x. */
export function tempoOver({ beat, bpm }: SceneEvent['tempo'], x: number, y: number): string {
  const value = printedValues(new Fraction(beat))[0];
  const code = value && TEXT_NOTE[value.base];
  const words = { ...filled('ink'), 'font-family': SERIF, 'font-size': 13 };
  if (!value || code === undefined) return tag('text', { x, y, ...words }, `${escaped(beat)} = ${bpm}`);
  const em = EM * 0.62;
  const dots = Array.from({ length: value.dots }, (_, dot) => sign(SIGN.dot, x + 10 + 5 * dot, y, em)).join('');
  return sign(code, x, y, em) + dots + tag('text', { x: x + 15 + 5 * value.dots, y, ...words }, `= ${bpm}`);
}

/** An instruction above its bar. */
export function instructionOver(text: string, x: number, y: number): string {
  return tag('text', { x, y, ...filled('ink'), 'font-family': SERIF, 'font-size': 13, 'font-style': 'italic' }, escaped(text));
}

/** A rehearsal mark in its box, over the start of its bar. */
export function rehearsalMarkOver(mark: string, x: number, y: number): string {
  const width = 10 + 8 * mark.length;
  return (
    tag('rect', { x, y: y - 13, width, height: 17, ...outlined('ink', 1.2, 'pw-rehearsal') }) +
    tag('text', { x: x + 5, y, ...filled('ink'), 'font-size': 13, 'font-weight': 700 }, escaped(mark))
  );
}

/** The number of a bar, over the head of a line. */
export function barNumberOver(number: number, x: number, y: number): string {
  return tag('text', { x, y, ...filled('faint'), 'font-family': SERIF, 'font-size': 11 }, String(number));
}
