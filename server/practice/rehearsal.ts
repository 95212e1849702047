import { parse } from '../../grammar/parse';
import type { Passage } from '../passage/passage';
import { resolve } from '../passage/resolve';
import type { Solution } from '../solver/solution';
import type { Solver } from '../solver/solve';
import type { Exercise, Piece } from './exercise';
import { exerciseLines } from './exercise-text';
import { sameWay } from './notes';

/** An exercise as it will stand in the file, and as it is fingered there. */
export interface Rehearsed {
  readonly lines: readonly string[];
  readonly solution: Solution;
}

/** What an exercise is read and fingered with. */
export interface Room {
  /** Setting lines that hold for it, and all that do. */
  readonly settings: readonly string[];
  readonly solver: Solver;
}

/**
 * Writes an exercise with as few hints as keep its fingering: it is read and fingered without, and pieces that come out
 * differently get theirs, until none does. Undefined where it has an error or a note that can't be played.
 */
export function rehearse(exercise: Exercise, room: Room): Rehearsed | undefined {
  const pieces = exercise.sections.flatMap(({ bars }) => bars.flatMap((bar) => bar.pieces)).filter(({ notes }) => notes.length);
  let pinned: ReadonlySet<Piece> = new Set();
  for (;;) {
    const lines = exerciseLines(exercise, room.settings, pinned);
    const passage = read(lines);
    if (!passage) return undefined;
    const solution = room.solver.solve(passage);
    if (solution.unplayables.length > 0) return undefined;
    const loose = pieces.filter((piece, index) => !pinned.has(piece) && differs(piece, solution, playing(passage)[index]));
    if (loose.length === 0) return { lines, solution };
    pinned = new Set([...pinned, ...loose]);
  }
}

function read(lines: readonly string[]): Passage | undefined {
  const tree = parse(lines.join('\n'));
  const { passages, problems } = resolve(tree);
  const spelled = tree.lines.some(({ node }) => node.problems.length > 0);
  return spelled || problems.some(({ severity }) => severity === 'error') ? undefined : passages[0];
}

/** Indices of the events that sound: a passage that opens with a rest begins with one that does not. */
function playing({ events }: Passage): readonly number[] {
  return events.flatMap(({ spec }, event) => (spec.notes.length ? [event] : []));
}

function differs({ notes }: Piece, { events }: Solution, event: number | undefined): boolean {
  const ways = event === undefined ? undefined : events[event]?.fingering.ways;
  return notes.some(({ way, pinned, held }, note) => {
    const played = ways?.[note];
    return way !== undefined && !pinned && !held && !(played && sameWay(played, way));
  });
}
