import type { SceneBoard, SceneNote, ScenePassage } from '../../protocol/scene';

/**
 * Where things lie in the drawing. Its unit is the millimetre in both directions, so what is measured
 * on the drawing is what the player measures on the string. Lying (wide panels) the nut is on the left
 * and string I on top; upright (narrow panels) the nut is on top and string I on the right: the same
 * player's view, turned.
 */
export interface Frame {
  readonly board: SceneBoard;
  readonly upright: boolean;
  /** mm from the nut to which the drawing reaches, the bridge at most. */
  readonly end: number;
  /** Half the width of the drawn board at its widest, mm. */
  readonly half: number;
  /** Millimetres of the drawing that one pixel takes, for lettering and hairlines. */
  readonly px: number;
  /** `mm` along from the nut, `across` from the middle of the board, positive toward string IV. */
  at(mm: number, across: number): Point;
  /** How far string `index` (0 is I) is from the middle, `mm` from the nut. */
  across(index: number, mm: number): number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Room before the nut that the pennants of open strings need, mm. */
export const FLAGS = 9.5;

/** Wood beyond the outer strings, mm. Assumption. */
const EDGE = 3.4;
/** Shown beyond the farthest finger, mm. */
const BEYOND = 24;
/** Never show less than this share of the string: it must be seen as a string. */
const LEAST_SHARE = 0.42;

export function frameOf(
  board: SceneBoard,
  options: { readonly scale: number; readonly upright: boolean; readonly end: number },
): Frame {
  const { nut, bridge } = board.spacing;
  const middle = (board.strings.length - 1) / 2;
  const spacingAt = (mm: number): number => nut + ((bridge - nut) * mm) / board.length;
  const end = Math.min(options.end, board.length);
  return {
    board,
    upright: options.upright,
    end,
    half: middle * spacingAt(end) + EDGE,
    px: 1 / options.scale,
    at: options.upright ? (mm, across) => ({ x: -across, y: mm }) : (mm, across) => ({ x: mm, y: across }),
    across: (index, mm) => (index - middle) * spacingAt(mm),
  };
}

/** Half the width of the wood, `mm` from the nut. */
export function halfWidth(frame: Frame, mm: number): number {
  return Math.abs(frame.across(0, mm)) + EDGE;
}

/** How far along the string a passage must be shown so that every finger and its room is seen, mm, in steps of 10. */
export function reachOfPassage({ board, events }: ScenePassage): number {
  return events.reduce((far, { notes }) => Math.max(far, reachOfNotes(board, notes)), reachOfNotes(board, []));
}

/** The same for a few notes, for small diagrams and comparisons. */
export function reachOfNotes(board: SceneBoard, notes: readonly SceneNote[]): number {
  const fingers = notes.flatMap(({ stop, touch }) => [stop, touch].flatMap((finger) => (finger ? [finger.mm + BEYOND] : [])));
  return Math.ceil(Math.max(board.length * LEAST_SHARE, ...fingers) / 10) * 10;
}
