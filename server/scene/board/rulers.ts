import { filled, outlined } from '../look';
import { num, tag } from '../svg';
import { type Frame, halfWidth } from './frame';

/** Lettering of the rulers, px. */
const SIZE = 10.5;

/** Millimetres from the nut, along the side of string IV: a tick each 10, a number each 20 or 50 as there is room. */
export function mmRuler(frame: Frame): string {
  const { px } = frame;
  const base = frame.half + 5 * px;
  const every = 20 / px > 20 * 3.6 ? 20 : 50;
  const ticks: string[] = [];
  const labels: string[] = [];
  for (let mm = 0; mm <= frame.end; mm += 10) {
    const numbered = mm % every === 0;
    ticks.push(line(frame, mm, base, base + (numbered ? 7 : 4) * px));
    if (numbered) labels.push(label(frame, mm, base + 9 * px, mm === 0 ? '0 mm' : String(mm), 1));
  }
  ticks.push(lengthwise(frame, base));
  return tag('g', { class: 'pw-ruler' }, tag('path', { ...outlined('faint', 1 * px), d: ticks.join('') }) + labels.join(''));
}

/** The usual positions, beyond the millimetres: where the first finger falls in each. */
export function positionRuler(frame: Frame): string {
  const { px, board, upright } = frame;
  const row = frame.half + (upright ? 36 : 26) * px;
  const labels = board.positions
    .filter(({ mm }) => mm <= frame.end)
    .map(({ name, mm }, at) => label(frame, mm, row, upright ? String(at + 1) : name, 1));
  return tag('g', { class: 'pw-positions' }, labels.join(''));
}

/** A dashed line over the wood where the neck ends. */
export function neckEnd(frame: Frame): string {
  const { board, end, px } = frame;
  if (board.neckEnd === undefined || board.neckEnd > end) return '';
  const half = halfWidth(frame, board.neckEnd);
  const look = { ...outlined('line', 1.2 * px, 'pw-neck'), 'stroke-dasharray': `${num(3 * px)} ${num(3 * px)}` };
  return tag('path', { ...look, d: line(frame, board.neckEnd, -half, half) });
}

/** The string's points of division, along the side of string I; the simplest fractions are named first and crowd out the rest. */
export function divisionRuler(frame: Frame, marked: ReadonlySet<string>): string {
  const { px, board } = frame;
  const base = -frame.half - 5 * px;
  const points = new Map(board.nodes.map(({ k, n, mm }) => [`${k}/${n}`, { k, n, mm }]));
  const taken: number[] = [];
  const ticks: string[] = [];
  const labels: string[] = [];
  const order = [...points]
    .filter(([, { mm }]) => mm <= frame.end)
    .sort(([a, x], [b, y]) => Number(marked.has(b)) - Number(marked.has(a)) || x.n - y.n || x.k - y.k);
  for (const [name, { mm }] of order) {
    const room = (frame.upright ? 13 : 22) * px;
    const free = taken.every((other) => Math.abs(other - mm) >= room);
    ticks.push(line(frame, mm, base, base - (free ? 6 : 3) * px));
    if (!free) continue;
    taken.push(mm);
    labels.push(label(frame, mm, base - 8 * px, name, -1, marked.has(name)));
  }
  ticks.push(lengthwise(frame, base));
  return tag('g', { class: 'pw-ruler' }, tag('path', { ...outlined('faint', 1 * px), d: ticks.join('') }) + labels.join(''));
}

function lengthwise(frame: Frame, across: number): string {
  const from = frame.at(0, across);
  const to = frame.at(frame.end, across);
  return `M${num(from.x)} ${num(from.y)}L${num(to.x)} ${num(to.y)}`;
}

function line(frame: Frame, mm: number, from: number, to: number): string {
  const a = frame.at(mm, from);
  const b = frame.at(mm, to);
  return `M${num(a.x)} ${num(a.y)}L${num(b.x)} ${num(b.y)}`;
}

/** A label beside the board; `side` 1 is the side of string IV. */
function label(frame: Frame, mm: number, across: number, text: string, side: 1 | -1, strong = false): string {
  const { px, upright } = frame;
  const { x, y } = frame.at(mm, across);
  const look = { ...filled(strong ? 'ink' : 'faint'), 'font-size': SIZE * px, 'font-weight': strong ? 700 : undefined };
  if (upright) return tag('text', { x, y: y + SIZE * 0.35 * px, ...look, 'text-anchor': side === 1 ? 'end' : 'start' }, text);
  return tag('text', { x, y: side === 1 ? y + SIZE * 0.75 * px : y, ...look, 'text-anchor': 'middle' }, text);
}

/** The wood, the nut, the strings; the bridge where the drawing reaches it. */
export function instrument(frame: Frame): string {
  const { board, end, px } = frame;
  const wood = Math.min(end, board.fingerboard);
  const corner = (mm: number, sign: number): string => {
    const { x, y } = frame.at(mm, sign * halfWidth(frame, mm));
    return `${num(x)} ${num(y)}`;
  };
  const strings = board.strings.map((_, index) => {
    const from = frame.at(0, frame.across(index, 0));
    const to = frame.at(end, frame.across(index, end));
    // Lower strings are thicker; the steps are for the eye.
    return tag('path', {
      ...outlined('faint', 0.35 + 0.17 * index),
      d: `M${num(from.x)} ${num(from.y)}L${num(to.x)} ${num(to.y)}`,
    });
  });
  const bar = (mm: number, width: number): string =>
    tag('path', { ...outlined('ink', width), 'stroke-linecap': 'round', d: `M${corner(mm, -1)}L${corner(mm, 1)}` });
  return (
    tag('path', { ...filled('wood'), d: `M${corner(0, -1)}L${corner(wood, -1)}L${corner(wood, 1)}L${corner(0, 1)}Z` }) +
    tag('path', {
      ...outlined('line', px),
      d: `M${corner(0, -1)}L${corner(wood, -1)}${wood === board.fingerboard ? 'L' : 'M'}${corner(wood, 1)}L${corner(0, 1)}`,
    }) +
    strings.join('') +
    bar(-0.7, 1.4) +
    (end >= board.length ? bar(board.length, 2) : '')
  );
}

/** Every node that has room, as a slot on its string as long as that room: where a touch would ring. */
export function nodeSlots(frame: Frame): string {
  const slots = frame.board.nodes
    .filter(({ mm }) => mm <= frame.end)
    .map(({ string, mm, tolerance, k, n }) => {
      const { x, y } = frame.at(mm, frame.across(string, mm));
      const thick = 1.5;
      // No farther than the board is drawn.
      const long = tolerance + Math.min(tolerance, frame.end - mm);
      const box = frame.upright
        ? { x: x - thick / 2, y: y - tolerance, width: thick, height: long }
        : { x: x - tolerance, y: y - thick / 2, width: long, height: thick };
      return tag('rect', { ...box, rx: thick / 2, 'data-node': `${k}/${n}`, 'data-string': frame.board.strings[string]?.name });
    });
  return tag('g', { ...filled('touch', 'pw-slots'), 'fill-opacity': 0.3 }, slots.join(''));
}
