import { positionName } from '../../hand/places';
import type { SceneAlternative, SceneEvent, SceneNote, ScenePassage } from '../../protocol/scene';
import { filled, LIGHT, outlined } from '../look';
import { escaped, num, tag } from '../svg';
import { mmWords, printedPitch, sentence } from '../words';
import { bowPlace } from './bow-place';
import { type Frame, frameOf, reachOfPassage } from './frame';
import { motion, noteMarks } from './marks';
import { divisionRuler, instrument, mmRuler, nodeSlots } from './rulers';

export interface BoardOptions {
  /** Pixels a millimetre will take on the page or screen. */
  readonly scale: number;
  readonly upright?: boolean;
  /** mm from the nut to show; all that the passage needs unless set. */
  readonly end?: number;
  /** Show where the hand goes next. */
  readonly next?: boolean;
  /** Another fingering of the same event, drawn beside the chosen one. */
  readonly other?: SceneAlternative | undefined;
}

/** The board, ready to be put on a page. Unit of the drawing: mm; `width` and `height` are px at the scale asked for. */
export interface BoardDrawing {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

/** The fingerboard to scale with the fingers of one event on it. */
export function drawBoard(passage: ScenePassage, eventIndex: number, options: BoardOptions): BoardDrawing {
  const frame = frameOf(passage.board, {
    scale: options.scale,
    upright: options.upright ?? false,
    end: options.end ?? reachOfPassage(passage),
  });
  const event = passage.events[eventIndex];
  return framed(
    frame,
    ground(frame, event),
    event ? fingers(frame, passage, event, options) : '',
    `Fingerboard: ${event?.account ?? passage.board.name}`,
  );
}

/**
 * One drawing with a layer for every event, the instrument itself drawn once: for a page that steps
 * through them without drawing again. Layers carry `data-event`; all but the first are hidden.
 */
export function drawBoardLayers(passage: ScenePassage, options: BoardOptions): BoardDrawing {
  const frame = frameOf(passage.board, {
    scale: options.scale,
    upright: options.upright ?? false,
    end: options.end ?? reachOfPassage(passage),
  });
  const layers = passage.events.map((event, index) =>
    tag(
      'g',
      { class: 'pw-layer', 'data-event': index, visibility: index === 0 ? undefined : 'hidden' },
      fingers(frame, passage, event, options),
    ),
  );
  return framed(frame, ground(frame, undefined), layers.join(''), `Fingerboard of the ${passage.board.name}, to scale`);
}

/** Outer margins, px: lettering beside the nut, rulers and lanes beside the board. */
const LYING = { before: 62, after: 16, stringI: 52, stringIV: 50 };
const UPRIGHT = { before: 46, after: 16, stringI: 106, stringIV: 54 };
/** Room before the nut that the pennants need, mm. */
const FLAGS = 9.5;

/** The scale at which a board shown to `end` mm is `length` px long, from its names to its rulers' end. */
export function scaleToFit(end: number, length: number, upright: boolean): number {
  const { before, after } = upright ? UPRIGHT : LYING;
  return Math.max(1, (length - before - after) / (end + FLAGS));
}

function framed(frame: Frame, under: string, over: string, title: string): BoardDrawing {
  const { px, half, end, upright } = frame;
  const margin = upright ? UPRIGHT : LYING;
  const long = { from: -FLAGS - margin.before * px, to: end + margin.after * px };
  const wide = { from: -half - margin.stringI * px, to: half + margin.stringIV * px };
  const box = upright
    ? { x: -wide.to, y: long.from, width: wide.to - wide.from, height: long.to - long.from }
    : { x: long.from, y: wide.from, width: long.to - long.from, height: wide.to - wide.from };
  const width = Math.round(box.width / px);
  const height = Math.round(box.height / px);
  const svg = tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'pw-board',
      viewBox: [box.x, box.y, box.width, box.height].map(num).join(' '),
      width,
      height,
      role: 'img',
      'aria-label': title,
      'font-family': 'system-ui, "Segoe UI", Helvetica, Arial, sans-serif',
    },
    under + over,
  );
  return { svg, width, height };
}

function ground(frame: Frame, event: SceneEvent | undefined): string {
  const marked = new Set(
    (event?.notes ?? []).flatMap((note) => (note.kind === 'natural' && note.touch ? [note.touch.fraction] : [])),
  );
  return instrument(frame) + nodeSlots(frame) + stringNames(frame) + mmRuler(frame) + divisionRuler(frame, marked);
}

function stringNames(frame: Frame): string {
  const { px, upright } = frame;
  return frame.board.strings
    .map(({ name, pitch }, index) => {
      // Where the strings are too close for their names, the names are drawn apart.
      const spread = Math.max(1, ((upright ? 21 : 14) * px) / Math.abs(frame.across(0, 0) - frame.across(1, 0)));
      const { x, y } = frame.at(-FLAGS - 6 * px, spread * frame.across(index, 0));
      const size = 12 * px;
      if (upright) {
        return (
          tag(
            'text',
            { x, y: y - 15 * px, ...filled('ink'), 'font-size': size, 'font-weight': 700, 'text-anchor': 'middle' },
            name,
          ) +
          tag(
            'text',
            { x, y, ...filled('faint'), 'font-size': 9.5 * px, 'text-anchor': 'middle' },
            printedPitch(pitch).replace(/\d/, ''),
          )
        );
      }
      return (
        tag(
          'text',
          { x: x - 26 * px, y: y + size * 0.35, ...filled('ink'), 'font-size': size, 'font-weight': 700, 'text-anchor': 'end' },
          name,
        ) +
        tag(
          'text',
          { x, y: y + size * 0.35, ...filled('faint'), 'font-size': 10.5 * px, 'text-anchor': 'end' },
          printedPitch(pitch),
        )
      );
    })
    .join('');
}

function fingers(frame: Frame, passage: ScenePassage, event: SceneEvent, options: BoardOptions): string {
  const next = options.next === false ? undefined : passage.events[event.index + 1];
  return [
    ...event.notes.map((note) => motion(frame, note)),
    ...event.notes.map((note) => bowPlace(frame, note)),
    ...(next && !options.other
      ? next.notes.filter((note) => !staysPut(note, event.notes)).map((note) => noteMarks(frame, note, 'next'))
      : []),
    ...event.notes.map((note) => noteMarks(frame, note, 'now')),
    ...(options.other ? options.other.notes.map((note) => noteMarks(frame, note, 'other')) : []),
    event.barred ? bar(frame, event.notes) : '',
    handLane(frame, event),
    next && !options.other ? nextLane(frame, event, next) : '',
    ...event.notes.map((note) => callout(frame, note)),
    event.problem === undefined ? '' : trouble(frame, event),
  ].join('');
}

/** The same fingers at the same places: nothing to show of the way there. */
function staysPut(note: SceneNote, before: readonly SceneNote[]): boolean {
  return before.some(
    (other) =>
      other.stringIndex === note.stringIndex &&
      other.kind === note.kind &&
      (other.stop?.mm ?? 0) === (note.stop?.mm ?? 0) &&
      (other.touch?.mm ?? 0) === (note.touch?.mm ?? 0),
  );
}

/** One finger over two strings: its marks tied together. */
function bar(frame: Frame, notes: readonly SceneNote[]): string {
  const [a, b] = notes;
  const from = a && (a.touch ?? a.stop);
  const to = b && (b.touch ?? b.stop);
  if (!a || !b || !from || !to) return '';
  const p = frame.at(from.mm, frame.across(a.stringIndex, from.mm));
  const q = frame.at(to.mm, frame.across(b.stringIndex, to.mm));
  return tag('path', {
    ...outlined(a.touch ? 'touch' : 'stop', 1),
    'stroke-opacity': 0.5,
    d: `M${num(p.x)} ${num(p.y)}L${num(q.x)} ${num(q.y)}`,
  });
}

/** The hand beside string I: from where the first finger falls to the farthest finger placed. */
function handLane(frame: Frame, event: SceneEvent): string {
  const { px, upright } = frame;
  const placed = event.notes.flatMap(({ stop, touch }) => [stop, touch].flatMap((finger) => (finger ? [finger.mm] : [])));
  if (event.handMm === undefined || placed.length === 0) return '';
  const from = Math.min(event.handMm, ...placed);
  const to = Math.max(event.handMm, ...placed);
  const lane = -frame.half - (upright ? 42 : 34) * px;
  const tick = 5 * px;
  const points = [frame.at(from, lane + tick), frame.at(from, lane), frame.at(to, lane), frame.at(to, lane + tick)];
  const span = Math.max(...placed) - Math.min(...placed);
  const words = [
    `${positionName(event.position ?? 0)}${upright ? '' : ' position'}`,
    ...(span > 0.5 ? [`${mmWords(span)}${upright ? '' : ' apart'}`] : []),
  ];
  const d = `M${points.map(({ x, y }) => `${num(x)} ${num(y)}`).join('L')}`;
  const size = 11 * px;
  const middle = frame.at((from + to) / 2, lane - 6 * px);
  const text = upright
    ? words
        .map((word, row) =>
          tag('text', { x: middle.x, y: middle.y + (row * 13 - 2) * px, ...filled('ink'), 'font-size': size }, word),
        )
        .join('')
    : tag(
        'text',
        { x: Math.max(middle.x, 30 * px), y: middle.y, ...filled('ink'), 'font-size': size, 'text-anchor': 'middle' },
        words.join(' · '),
      );
  return tag(
    'g',
    { class: 'pw-hand', 'data-from': num(from), 'data-to': num(to) },
    tag('path', { ...outlined('ink', 1.6 * px), 'stroke-linejoin': 'round', d }) + text,
  );
}

/** Beside the mm ruler: how far the hand goes for the next event. */
function nextLane(frame: Frame, event: SceneEvent, next: SceneEvent): string {
  const { px, upright } = frame;
  if (event.handMm === undefined || next.handMm === undefined) return '';
  const way = next.handMm - event.handMm;
  if (Math.abs(way) < 1 || next.notes.every(({ kind }) => kind === 'open')) return '';
  const lane = frame.half + (upright ? 38 : 33) * px;
  const a = frame.at(event.handMm, lane);
  const b = frame.at(next.handMm, lane);
  const head = Math.sign(way) * 5 * px;
  const left = frame.at(next.handMm - head, lane - 3 * px);
  const right = frame.at(next.handMm - head, lane + 3 * px);
  const d = `M${num(a.x)} ${num(a.y)}L${num(b.x)} ${num(b.y)}M${num(left.x)} ${num(left.y)}L${num(b.x)} ${num(b.y)}L${num(right.x)} ${num(right.y)}`;
  const words = `next: hand ${mmWords(Math.abs(way))} ${way > 0 ? 'toward the bridge' : 'toward the nut'}`;
  const text = upright
    ? ''
    : tag('text', { x: Math.max(a.x, b.x) + 7 * px, y: lane + 4 * px, ...filled('faint'), 'font-size': 11 * px }, words);
  return tag(
    'g',
    { class: 'pw-way' },
    tag('path', { ...outlined('faint', 1.4 * px), 'stroke-dasharray': `${num(4 * px)} ${num(3 * px)}`, d }) + text,
  );
}

/** What the drawing alone does not say: the sounding pitch and the room of the finger. */
function callout(frame: Frame, note: SceneNote): string {
  if (frame.upright) return '';
  const { px } = frame;
  const place = note.touch ?? note.stop;
  const mm = place ? place.mm + Math.max(note.tolerance ?? 0, note.touch ? frame.board.contact / 2 : 0) + 5 * px : 3;
  const { x, y } = frame.at(mm, frame.across(note.stringIndex, mm));
  const room = note.tolerance === undefined ? '' : ` ±${mmWords(note.tolerance)}`;
  const inside = tag('tspan', { 'font-weight': 700 }, escaped(printedPitch(note.sounding))) + escaped(room);
  return haloed({ x, y: y - 4 * px, 'font-size': 11.5 * px }, 'ink', inside, px);
}

/** Lettering over strings: a rim of paper under it. Two texts, since not every reader of SVG can paint a stroke first. */
function haloed(attributes: Readonly<Record<string, string | number>>, role: 'ink' | 'warn', inside: string, px: number): string {
  const rim = {
    ...outlined('paper', 3.5 * px, 'pw-fill-paper'),
    fill: LIGHT.paper,
    'stroke-linejoin': 'round',
    'aria-hidden': 'true',
  };
  return tag('text', { ...attributes, ...rim }, inside) + tag('text', { ...attributes, ...filled(role) }, inside);
}

function trouble(frame: Frame, event: SceneEvent): string {
  const { px } = frame;
  const { x, y } = frame.at(frame.upright ? 14 : 6, 0);
  const place = { x: frame.upright ? -frame.half : x, y: y + 5 * px, 'font-size': 14 * px, 'font-weight': 700 };
  return haloed(place, 'warn', escaped(sentence(`${event.written} can't be played`)), px);
}
