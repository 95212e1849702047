import { semitone } from '../music/pitch';
import type { NoteSpec, Setup } from '../passage/passage';
import { partings } from './breaking';
import { factsOf, type ShapeFacts } from './facts';
import { meetsPins } from './pins';
import { isShape, type Obstacle, refusal, type Shape, shapeOf } from './shape';
import type { Way } from './way';
import { waysOf } from './ways';

/** All shapes in which some notes can be played, before a key says from which hand places: the same notes in every key share them. */
export interface ShapeSet {
  readonly setup: Setup;
  readonly shapes: readonly Shape[];
  readonly facts: ShapeFacts;
  /** One note at the pitch of an open string, whatever its hints. */
  readonly hasOpen: boolean;
}

export function shapeSetOf(notes: readonly NoteSpec[], setup: Setup): ShapeSet {
  const { shapes } = shapesOf(notes, setup);
  return { setup, shapes, facts: factsOf(shapes), hasOpen: notes.length === 1 && canBeOpen(notes[0]!, setup) };
}

function canBeOpen({ asked, harmonic }: NoteSpec, { instrument }: Setup): boolean {
  return (
    asked.kind === 'sounding' &&
    harmonic !== 'must' &&
    instrument.strings.some(({ pitch }) => semitone(pitch) === semitone(asked.pitch))
  );
}

/** The shapes that meet every hint, and what stood in the way of the others. */
export function shapesOf(
  notes: readonly NoteSpec[],
  setup: Setup,
): { readonly shapes: readonly Shape[]; readonly obstacles: readonly Obstacle[] } {
  const shapes: Shape[] = [];
  const obstacles = new Set<Obstacle>();
  const tried = (ways: readonly Way[]): boolean => {
    const made = shapeOf(ways, setup, ways.length > 1 ? notes.length : 1);
    if (!isShape(made)) obstacles.add(made);
    else if (ways.length === notes.length) shapes.push(made);
    return isShape(made);
  };
  if (notes.length === 0) tried([]);
  // What some notes can't have together, more can't either.
  const able = notes.map((note) => playable(chordNote(note, notes.length), setup).filter((way) => tried([way])));
  let some: readonly (readonly Way[])[] = able[0]?.map((way) => [way]) ?? [];
  for (const ways of able.slice(1)) {
    const more: (readonly Way[])[] = [];
    for (const one of some) {
      if (more.length >= MOST_TOGETHER) break;
      for (const way of ways) {
        const refused = refusal(one, way, notes.length);
        if (refused) {
          obstacles.add(refused);
          continue;
        }
        const together = [...one, way];
        if (tried(together)) more.push(together);
      }
    }
    some = more;
  }
  return { shapes, obstacles: [...obstacles] };
}

/** The shapes of a chord whose fingers are set in two halves, the bow going from lower strings to higher. */
export function shapesInHalves(notes: readonly NoteSpec[], setup: Setup): readonly Shape[] {
  const able = notes.map((note) => playable(chordNote(note, notes.length), setup));
  const half = (ways: readonly (readonly Way[])[]) =>
    ways
      .reduce<readonly (readonly Way[])[]>((some, next) => some.flatMap((one) => next.map((way) => [...one, way])), [[]])
      .filter((one) => isShape(shapeOf(one, setup, notes.length)));
  const shapes: Shape[] = [];
  for (const parted of partings(notes)) {
    const upper = half(able.slice(parted));
    for (const lower of half(able.slice(0, parted))) {
      const nearest = Math.min(...lower.map(({ string }) => string));
      for (const two of upper) {
        if (shapes.length >= MOST_TOGETHER) return shapes;
        if (two.some(({ string }) => string >= nearest)) continue;
        const ways = [...lower, ...two];
        const made = shapeOf(ways, setup, notes.length, parted);
        if (isShape(made) && !isShape(shapeOf(ways, setup))) shapes.push(made);
      }
    }
  }
  return shapes;
}

/** Ways of playing some notes together that are gone through; only chords of three and four harmonics come near it. */
const MOST_TOGETHER = 4096;

/** Nobody takes a harmonic of their own accord in a chord of three or four notes: it is one where that is asked. */
function chordNote(note: NoteSpec, notes: number): NoteSpec {
  return notes > 2 && note.harmonic === 'may' ? { ...note, harmonic: 'no' } : note;
}

/** The ways of a note that meet its hints and speak. */
function playable(note: NoteSpec, setup: Setup): readonly Way[] {
  return waysOf(note, setup).filter((way) => way.tolerance !== 0 && meetsPins(way, note.pins));
}
