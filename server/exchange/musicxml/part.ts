import type { Passage } from '../../passage/passage';
import type { Clef } from '../../scene/staff/clef';
import type { Solution } from '../../solver/solution';
import type { Accidentals } from './accidentals';

/** What every piece of a bar needs to know to be written. */
export interface Part {
  readonly passage: Passage;
  readonly solution: Solution | undefined;
  /** Ticks to a quarter. */
  readonly divisions: number;
  readonly accidentals: Accidentals;
  /** Where the passage names none. */
  readonly clef: Clef;
}
