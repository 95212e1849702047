import { filled } from '../look';
import { num, tag } from '../svg';
import { EM } from './labels';
import { sign } from './outline-context';
import { OUTLINES } from './outlines';

/** Half the height of the strokes at its ends, half the thickness of the bar between them, what is free beside it, px. */
const END = 10;
const THICK = 3.5;
const FREE = 12;
/** The numerals of time signatures, from 0 on (Standard Music Font Layout 1.4). */
const NUMERAL = 0xe080;

/** A rest of so many bars on the staff, whose top line lies at 0, between two places: a thick bar, and over the staff their number. */
export function barsRest(bars: number, from: number, to: number): string {
  const [left, right] = [from + FREE, to - FREE];
  const rect = (x: number, y: number, width: number, height: number) =>
    tag('rect', { ...filled('ink'), class: 'pw-bars-rest', x: num(x), y: num(y), width: num(width), height: num(height) });
  const codes = [...String(bars)].map((digit) => NUMERAL + Number(digit));
  const advances = codes.map((code) => ((OUTLINES.get(code)?.advance ?? 0) * EM) / 1000);
  let x = (left + right - advances.reduce((sum, each) => sum + each, 0)) / 2;
  const number = codes.map((code, index) => {
    const drawn = sign(code, x, -14, EM);
    x += advances[index] ?? 0;
    return drawn;
  });
  return [
    rect(left, 20 - THICK, right - left, 2 * THICK),
    rect(left, 20 - END, 1.6, 2 * END),
    rect(right - 1.6, 20 - END, 1.6, 2 * END),
    ...number,
  ].join('');
}

/** How high its number stands over the staff. */
export const BARS_NUMBER_TOP = -26;
