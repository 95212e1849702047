import { TRILLS } from '../../passage/ornament';
import type { SceneEvent } from '../../protocol/scene';

/** One piece of a note: seconds from its onset, how long, and how many semitones above the written pitch. */
export interface Turn {
  readonly at: number;
  readonly seconds: number;
  readonly above: number;
}

/** Seconds of one note of a trill or mordent. Assumption: about as quick as players make them. */
const QUICK = 0.08;
/** A note is cut into no more notes than this, and at most this share of it is ornament, where the rest is the note itself. */
const MOST_TURNS = 200;
const SHARE = 0.75;

/** The notes that an ornament makes of one, in common practice (no source): a trill begins and ends on the written note. */
export function turnsOf({ marks = [], neighbours }: SceneEvent, seconds: number): readonly Turn[] | undefined {
  if (!neighbours || seconds <= 0) return undefined;
  const { above, below } = neighbours;
  for (const { word } of marks) {
    if (TRILLS.has(word)) return trill(above, seconds);
    const shape = SHAPES[word]?.(above, -below);
    if (shape) return ornament(shape, word.endsWith('turn'), seconds);
  }
  return undefined;
}

const SHAPES: Readonly<Record<string, (above: number, below: number) => readonly number[]>> = {
  mordent: (_, below) => [0, below, 0],
  'inverted-mordent': (above) => [0, above, 0],
  turn: (above, below) => [above, 0, below, 0],
  'inverted-turn': (above, below) => [below, 0, above, 0],
};

function trill(above: number, seconds: number): readonly Turn[] {
  const pairs = Math.min(MOST_TURNS / 2, Math.max(1, Math.round(seconds / QUICK / 2)));
  const count = 2 * pairs + 1;
  const each = seconds / count;
  return Array.from({ length: count }, (_, i) => ({ at: i * each, seconds: each, above: i % 2 ? above : 0 }));
}

/** A turn takes its notes evenly over the whole; a mordent is quick, and its last note is held. */
function ornament(shape: readonly number[], even: boolean, seconds: number): readonly Turn[] {
  const each = even ? seconds / shape.length : Math.min(QUICK, (seconds * SHARE) / (shape.length - 1));
  return shape.map((above, i) => ({
    at: i * each,
    seconds: i === shape.length - 1 ? seconds - i * each : each,
    above,
  }));
}
