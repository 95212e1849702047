import type { Instrument } from '../instrument/instrument';
import type { SceneNote } from '../protocol/scene';
import type { Frame } from '../scene/board/frame';
import { motion, noteMarks } from '../scene/board/marks';
import { filled, LIGHT, outlined } from '../scene/look';
import { sceneBoard } from '../scene/scene-board';
import { num, tag } from '../scene/svg';
import { mmWords, printedPitch } from '../scene/words';

/** Width of the picture, px. */
const WIDTH = 440;
/** Room beside the string for its name, and above and below for lettering, px. */
const MARGIN = { left: 62, right: 24, top: 18, bottom: 20 };
/** Between two strings of a double stop, mm of the drawing. */
const LANE = 12;
/** The string is shown at least so far from the nut, and so far beyond the last finger, mm. */
const LEAST_SHOWN = 150;
const BEYOND = 34;

/**
 * A small picture of the sounding strings from the nut to beyond the last finger, to scale: how each one moves, the
 * room its finger has, and the fingers. It brings its own paper, for it is shown on any theme.
 */
export function stringPicture(instrument: Instrument, notes: readonly SceneNote[]): string {
  const frame = frameOf(instrument, notes);
  const { board, px, half, end } = frame;
  const box = {
    x: -MARGIN.left * px,
    y: -half - MARGIN.top * px,
    width: WIDTH * px,
    height: 2 * half + (MARGIN.top + MARGIN.bottom) * px,
  };
  const below = box.y + box.height - 6 * px;
  const inside = [
    tag('rect', { ...box, rx: 4 * px, fill: LIGHT.paper }),
    tag('rect', { x: 0, y: -half, width: Math.min(board.fingerboard, end), height: 2 * half, fill: LIGHT.wood }),
    tag('path', { ...outlined('ink', 2.5 * px), d: `M 0 ${num(-half)} V ${num(half)}` }),
    end < board.length ? '' : tag('path', { ...outlined('line', 2 * px), d: `M ${num(end)} ${num(-half)} V ${num(half)}` }),
    ...notes.map((note) => string(frame, note)),
    ...notes.map((note) => motion(frame, note)),
    ...notes.map((note) => noteMarks(frame, note, 'now')),
    ...notes.map((note, index) => lettering(frame, note, index === 0 ? box.y + 12 * px : below)),
    notes.length > 1
      ? ''
      : label('nut', 0, below, px) + label(end < board.length ? 'bridge →' : 'bridge', end - 4 * px, below, px),
  ].join('');
  return tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: [box.x, box.y, box.width, box.height].map(num).join(' '),
      width: WIDTH,
      height: Math.round(box.height / px),
      'font-family': 'system-ui, "Segoe UI", Helvetica, Arial, sans-serif',
    },
    inside,
  );
}

/** Only the strings that sound, one beside the other whatever their real distance. */
function frameOf(instrument: Instrument, notes: readonly SceneNote[]): Frame {
  const board = sceneBoard(instrument);
  const fingers = notes.flatMap(({ stop, touch, tolerance = 0 }) => [stop?.mm ?? 0, (touch?.mm ?? 0) + tolerance]);
  const end = Math.min(board.length, Math.max(LEAST_SHOWN, Math.max(...fingers) + BEYOND));
  const lanes = [...new Set(notes.map(({ stringIndex }) => stringIndex))].sort((a, b) => a - b);
  return {
    board,
    upright: false,
    end,
    half: (lanes.length * LANE) / 2,
    px: end / (WIDTH - MARGIN.left - MARGIN.right),
    at: (mm, aside) => ({ x: mm, y: aside }),
    across: (index) => (lanes.indexOf(index) - (lanes.length - 1) / 2) * LANE,
  };
}

/** The picture as an address that stands for itself, safe inside a Markdown link. */
export function pictureAddress(svg: string): string {
  return `data:image/svg+xml,${encodeURIComponent(svg).replace(/[()'*!]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}`;
}

function string(frame: Frame, note: SceneNote): string {
  const y = num(frame.across(note.stringIndex, 0));
  const { px, board } = frame;
  const name = `${note.string}  ${printedPitch(board.strings[note.stringIndex]?.pitch ?? '')}`;
  return (
    tag('path', { ...outlined('ink', 1.2 * px), d: `M 0 ${y} H ${num(Math.min(board.length, frame.end + MARGIN.right * px))}` }) +
    tag(
      'text',
      {
        ...filled('ink'),
        // Before the flag of an open string.
        x: note.kind === 'open' ? -9.5 : -12 * px,
        y: frame.across(note.stringIndex, 0) + 4 * px,
        'font-size': 12 * px,
        'text-anchor': 'end',
        'xml:space': 'preserve',
      },
      name,
    )
  );
}

/** Where the fingers are, in mm from the nut. */
function lettering(frame: Frame, note: SceneNote, y: number): string {
  return [note.stop, note.touch].map((finger) => (finger ? label(mmWords(finger.mm), finger.mm, y, frame.px) : '')).join('');
}

function label(text: string, x: number, y: number, px: number): string {
  return tag('text', { ...filled('faint'), x, y, 'font-size': 10 * px, 'text-anchor': 'middle' }, text);
}
