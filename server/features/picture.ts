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
/** Room beside the string for its name and the bridge, and above and below for lettering, px. */
const MARGIN = { left: 52, right: 22, top: 18, bottom: 20 };
/** Between two strings of a double stop, mm of the drawing. */
const LANE = 17;

/**
 * A small picture of the sounding strings from nut to bridge, to scale along the string: how each one moves, the
 * room its finger has, and the fingers. It brings its own paper, for it is shown on any theme.
 */
export function stringPicture(instrument: Instrument, notes: readonly SceneNote[]): string {
  const board = sceneBoard(instrument);
  const scale = (WIDTH - MARGIN.left - MARGIN.right) / board.length;
  const lanes = [...new Set(notes.map(({ stringIndex }) => stringIndex))].sort((a, b) => a - b);
  const across = (index: number) => (lanes.indexOf(index) - (lanes.length - 1) / 2) * LANE;
  const half = (lanes.length * LANE) / 2;
  const px = 1 / scale;
  const frame: Frame = {
    board,
    upright: false,
    end: board.length,
    half,
    px,
    at: (mm, aside) => ({ x: mm, y: aside }),
    across,
  };
  const box = {
    x: -MARGIN.left * px,
    y: -half - MARGIN.top * px,
    width: WIDTH * px,
    height: 2 * half + (MARGIN.top + MARGIN.bottom) * px,
  };
  const inside = [
    tag('rect', { ...box, rx: 4 * px, fill: LIGHT.paper }),
    tag('rect', { x: 0, y: -half, width: board.fingerboard, height: 2 * half, fill: LIGHT.wood }),
    tag('path', { ...outlined('ink', 2.5 * px), d: `M 0 ${num(-half)} V ${num(half)}` }),
    tag('path', { ...outlined('line', 2 * px), d: `M ${num(board.length)} ${num(-half)} V ${num(half)}` }),
    ...notes.map((note) => string(frame, note)),
    ...notes.map((note) => motion(frame, note)),
    ...notes.map((note) => noteMarks(frame, note, 'now')),
    ...notes.map((note, index) => lettering(frame, note, index === 0 ? box.y + 12 * px : box.y + box.height - 5 * px)),
    notes.length > 1
      ? ''
      : label('nut', 0, box.y + box.height - 5 * px, px) + label('bridge', board.length, box.y + box.height - 5 * px, px),
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

/** The picture as an address that stands for itself, safe inside a Markdown link. */
export function pictureAddress(svg: string): string {
  return `data:image/svg+xml,${encodeURIComponent(svg).replace(/[()'*!]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}`;
}

function string(frame: Frame, note: SceneNote): string {
  const y = num(frame.across(note.stringIndex, 0));
  const { px, board } = frame;
  const name = `${note.string}  ${printedPitch(board.strings[note.stringIndex]?.pitch ?? '')}`;
  return (
    tag('path', { ...outlined('ink', 1.2 * px), d: `M 0 ${y} H ${num(board.length)}` }) +
    tag(
      'text',
      {
        ...filled('ink'),
        x: -12 * px,
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
