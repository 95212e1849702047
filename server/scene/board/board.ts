import { t } from '../../l10n/translate';
import type { HeardMark } from '../../protocol/heard';
import type { SceneAlternative, SceneEvent, SceneNote, ScenePassage } from '../../protocol/scene';
import { gravest } from '../heard/verdicts';
import { outlined } from '../look';
import { num, tag } from '../svg';
import { bowPlace } from './bow-place';
import { FLAGS, type Frame, frameOf, reachOfPassage } from './frame';
import { handLane, nextLane } from './lanes';
import { callout, stringNames, trouble } from './lettering';
import { motion, noteMarks } from './marks';
import { divisionRuler, instrument, mmRuler, neckEnd, nodeSlots, positionRuler } from './rulers';

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
  /** What a recording holds of the event: told beside its notes. */
  readonly heard?: readonly HeardMark[] | undefined;
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
    t('Fingerboard: {account}', { account: event?.account ?? passage.board.name }),
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
  return framed(
    frame,
    ground(frame, undefined),
    layers.join(''),
    t('Fingerboard of the {board}, to scale', { board: passage.board.name }),
  );
}

/** Outer margins, px: lettering beside the nut, rulers and lanes beside the board. */
const LYING = { before: 62, after: 16, stringI: 52, stringIV: 62 };
const UPRIGHT = { before: 46, after: 16, stringI: 106, stringIV: 64 };

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
  return [
    instrument(frame),
    neckEnd(frame),
    nodeSlots(frame),
    stringNames(frame),
    mmRuler(frame),
    positionRuler(frame),
    divisionRuler(frame, marked),
  ].join('');
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
    ...event.notes.map((note, index) =>
      callout(frame, note, gravest((options.heard ?? []).filter((mark) => mark.note === index))),
    ),
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

/** The two notes that share a finger. */
function underOneFinger(notes: readonly SceneNote[]): readonly SceneNote[] {
  const fingerOf = ({ stop, touch }: SceneNote) => (touch ?? stop)?.finger;
  for (const [i, one] of notes.entries()) {
    const other = notes.slice(i + 1).find((two) => fingerOf(one) !== undefined && fingerOf(two) === fingerOf(one));
    if (other) return [one, other];
  }
  return [];
}

/** One finger over two strings: its marks tied together. */
function bar(frame: Frame, notes: readonly SceneNote[]): string {
  const [a, b] = underOneFinger(notes);
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
