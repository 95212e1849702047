import type { Placeless } from '../../grammar/print';
import type { PlainForm } from '../../grammar/tree';
import type { Pitch } from '../music/pitch';
import type { NoteSpec, Pins, Setup } from '../passage/passage';
import { wayHints } from '../rules/pinning';
import { layoutOf } from '../solver/layout';
import { alone } from '../solver/surroundings';
import type { Way } from '../solver/way';
import type { ExerciseNote } from './exercise';

/** A note as the passage writes it, to be played as it is played there. */
export function asInPassage(spec: NoteSpec, way: Way, { tied = false, held = false } = {}): ExerciseNote {
  const { asked } = spec;
  const marks = { way, pinned: false, tied, held };
  switch (asked.kind) {
    case 'sounding':
      return { ...marks, form: plain(asked.pitch, way.partial > 1), hints: wayHints(way, { asked, harmonic: marked(way) }) };
    case 'artificial':
      return { ...marks, form: asked, hints: wayHints(way, spec) };
    case 'diamond':
      return {
        ...marks,
        form: { kind: 'diamond', touch: asked.touch },
        ...(asked.sounding && { expected: asked.sounding }),
        hints: wayHints(way, spec),
      };
  }
}

/** A note as the hand sees it: an artificial harmonic with both its fingers, everything with its string and finger. */
export function asShape(way: Way, { tied = false, held = false } = {}): ExerciseNote {
  const marks = { way, pinned: true, tied, held };
  const { stop, touch } = way;
  if (way.kind === 'artificial' && stop && touch) {
    const asked = { kind: 'artificial', stop: stop.pitch, touch: touch.pitch } as const;
    return { ...marks, form: asked, expected: way.sounding, hints: wayHints(way, { asked, harmonic: 'must' }) };
  }
  const asked = { kind: 'sounding', pitch: way.sounding } as const;
  return {
    ...marks,
    form: plain(way.sounding, way.partial > 1),
    hints: wayHints(way, { asked, harmonic: marked(way) }),
  };
}

/** A note on a string, the finger left to the hand. */
export function onString(pitch: Pitch, harmonic: boolean, hints: string): ExerciseNote {
  return { form: plain(pitch, harmonic), hints, pinned: true, tied: false, held: false };
}

/** The ways of playing one note alone that this hand can take from some place and that speak, by its pins. */
export function waysAlone(spec: Omit<NoteSpec, 'pins'>, pins: Pins, setup: Setup): readonly Way[] {
  const notes = [{ ...spec, pins }];
  const { shapes, shape } = layoutOf(notes, setup, alone(notes, setup.instrument).fifths);
  return shapes.filter((_, index) => shape.includes(index)).flatMap(({ ways }) => ways);
}

/** The same string, point and fingers: it looks alike on the page. */
export function sameWay(a: Way, b: Way): boolean {
  return (
    a.string === b.string &&
    a.kind === b.kind &&
    a.interval === b.interval &&
    a.stop?.finger === b.stop?.finger &&
    a.stop?.mm === b.stop?.mm &&
    a.touch?.finger === b.touch?.finger &&
    a.touch?.k === b.touch?.k &&
    a.touch?.n === b.touch?.n
  );
}

function plain(pitch: Pitch, circle: boolean): Placeless<PlainForm> {
  return { kind: 'plain', pitch, ...(circle && { circle: {} }) };
}

/** Exercises mark every harmonic, so that they say the same under any `harmonics` setting. */
function marked(way: Way): NoteSpec['harmonic'] {
  return way.partial > 1 ? 'must' : 'no';
}
