import { type Exact, exactly } from '../music/time';
import { DRILL_METER, type ExerciseBar, type ExerciseNote, type Piece } from './exercise';
import { DRILL_TEMPO } from './tempo';

export const WHOLE = exactly(1, 1);
export const HALF = exactly(1, 2);
export const QUARTER = exactly(1, 4);

export function played(duration: Exact, ...notes: readonly ExerciseNote[]): Piece {
  return { duration, notes };
}

export function silence(duration: Exact): Piece {
  return { duration, notes: [] };
}

/** A bar of a drill in 4/4 at a tempo with time to listen. */
export function drillBar(...pieces: readonly Piece[]): ExerciseBar {
  return { pieces, tempo: DRILL_TEMPO, meter: DRILL_METER };
}
