import { later, t } from '../l10n/translate';
import { exactly, one } from '../music/time';
import { PAIN } from '../scene/words';
import type { Solution } from '../solver/solution';
import type { Exercise, ExerciseBar, Section } from './exercise';

/** Notes, or seconds, one after the other without a rest that make a run long. Assumptions. */
const LONG_NOTES = 32;
const LONG_SECONDS = 45;

const WORDS = {
  stretch: later(
    'The hand opens beyond what is comfortable here. Warm up first, keep the thumb loose, and play this no longer than a few minutes at a time. {pain}',
  ),
  run: later('This is a long run for the hand: stop as soon as it tires. {pain}'),
};

const HANG = later('In the silent bars let the arm hang until the hand is loose.');

/** What can tire or hurt the hand, and the section where it first does. */
export interface Strain {
  readonly kind: keyof typeof WORDS;
  readonly section: number;
}

/** The strain of an exercise as fingered: a stretch anywhere, else a run that is long with its repeats. */
export function strainOf({ sections }: Exercise, { events, passage }: Solution): Strain | undefined {
  const sounding = events.flatMap((solved, event) =>
    solved?.fingering.ways.length ? [{ solved, spec: passage.events[event]!.spec }] : [],
  );
  let long: Strain | undefined;
  let at = 0;
  let notes = 0;
  let seconds = 0;
  for (const [section, { bars, repeated, rest }] of sections.entries()) {
    const count = bars.flatMap(({ pieces }) => pieces).filter((piece) => piece.notes.length > 0).length;
    const played = sounding.slice(at, at + count);
    at += count;
    if (played.some(({ solved }) => (solved.terms.stretch ?? 0) > 0)) return { kind: 'stretch', section };
    for (const [index, { spec }] of (repeated ? [...played, ...played] : played).entries()) {
      notes++;
      seconds += spec.seconds;
      if (notes >= LONG_NOTES || seconds >= LONG_SECONDS) long ??= { kind: 'run', section };
      // The rest put after a section comes after all its repeats.
      if (spec.rest > 0 && !(rest && index % count === count - 1)) notes = seconds = 0;
    }
    if (rest) notes = seconds = 0;
  }
  return long;
}

/** The exercise with a silent bar after every section but the last, to let the hand go. */
export function withRests(exercise: Exercise): Exercise {
  const [first, ...others] = exercise.sections.map(withRest);
  if (!first?.rest || first.instructions.includes(t(HANG))) return { ...exercise, sections: first ? [first, ...others] : [] };
  return { ...exercise, sections: [{ ...first, instructions: [...first.instructions, t(HANG)] }, ...others] };
}

/** The exercise with the caution where it is needed first, and with rests. */
export function withCaution(exercise: Exercise, { kind, section }: Strain): Exercise {
  const sections = exercise.sections.map((each, index) =>
    index === section ? { ...each, instructions: [...each.instructions, t(WORDS[kind], { pain: t(PAIN) })] } : each,
  );
  return withRests({ ...exercise, sections });
}

function withRest(section: Section, index: number, all: readonly Section[]): Section {
  const last = section.bars.at(-1);
  return index === all.length - 1 || !last ? section : { ...section, rest: restBar(last) };
}

/** As long as the meter says; without one, four of the beat. */
function restBar({ tempo, meter }: ExerciseBar): ExerciseBar {
  const duration = meter ? exactly(meter.count, meter.unit) : one(tempo.beat.mul(4));
  return { tempo, ...(meter && { meter }), pieces: [{ duration, notes: [] }] };
}
