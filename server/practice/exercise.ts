import type { Placeless } from '../../grammar/print';
import type { Dynamic, NoteForm } from '../../grammar/tree';
import type { Meter, Tempo } from '../music/meter';
import type { Pitch } from '../music/pitch';
import type { Exact } from '../music/time';
import type { Way } from '../solver/way';

/** One exercise: becomes a passage of its own. */
export interface Exercise {
  readonly title: string;
  readonly sections: readonly Section[];
  /** What is repeated many times has a bar of rest after every section; other exercises only where they tire the hand. */
  readonly rests: boolean;
}

/** A stretch of an exercise under instructions of its own. */
export interface Section {
  /** In the order they are read; each a line of its own. */
  readonly instructions: readonly string[];
  readonly bars: readonly ExerciseBar[];
  /** Between repeat signs. */
  readonly repeated?: boolean;
  /** A silent bar after it, to let the hand go. */
  readonly rest?: ExerciseBar;
}

export interface ExerciseBar {
  readonly pieces: readonly Piece[];
  readonly tempo: Tempo;
  /** Written only where every bar of the exercise has one and is as long as it says. */
  readonly meter?: Meter;
}

/** A note, a double stop or (without notes) a rest. */
export interface Piece {
  /** Of a whole note. */
  readonly duration: Exact;
  readonly notes: readonly ExerciseNote[];
  readonly dynamic?: Dynamic;
  readonly slide?: boolean;
  /** Pieces under one bow share the object. */
  readonly stroke?: Stroke;
}

export interface Stroke {
  readonly word: 'slur' | 'up' | 'down';
}

export interface ExerciseNote {
  readonly form: Placeless<NoteForm>;
  /** Written behind a printed form, so that the student knows what must sound. */
  readonly expected?: Pitch;
  /** The hints that leave the wanted way of playing it and no other. */
  readonly hints: string;
  /** How it is to be played; absent where the exercise leaves it open. */
  readonly way?: Way;
  /** The way of playing is the point: hints always stand. Otherwise only where it would come out differently without. */
  readonly pinned: boolean;
  /** Held over into the same note of the next piece. */
  readonly tied: boolean;
  /** Held over from the piece before: it has its fingers already. */
  readonly held: boolean;
}

export const DRILL_METER: Meter = { count: 4, unit: 4 };
