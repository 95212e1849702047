import { parse } from '../../grammar/parse';
import type { Level } from '../../server/hand/skill';
import type { Family } from '../../server/instrument/instrument';
import { resolve } from '../../server/passage/resolve';
import { type Ceiling, ceiling } from '../../server/solver/ceiling';
import type { Solution } from '../../server/solver/solution';
import { createSolver } from '../../server/solver/solve';
import { EXERCISES, type Exercise, exerciseText } from './exercises';

/** What the model says of one exercise: chance of a clean run at the tempos tried, and the fastest that stays clean four times in five. */
export interface Row {
  readonly family: Family;
  readonly level: Level;
  readonly exercise: string;
  readonly value: string;
  /** By beats a minute. */
  readonly clean: Readonly<Record<number, number>>;
  readonly ceiling: Ceiling | undefined;
}

export const TEMPOS = [60, 100, 140] as const;
export const FAMILIES: readonly Family[] = ['violin', 'viola', 'cello'];
export const LEVELS: readonly Level[] = ['student', 'advanced', 'professional'];
/** The chance that the fastest safe tempo keeps. */
const SAFE = 0.8;

export const solver = createSolver();

export function solved(text: string): Solution {
  return solver.solve(resolve(parse(text)).passages[0]!);
}

export function rowOf(exercise: Exercise, family: Family, level: Level, value: string, hand?: string): Row {
  const solutions = TEMPOS.map((bpm) => [bpm, solved(exerciseText(exercise, family, level, bpm, value, hand))] as const);
  return {
    family,
    level,
    exercise: exercise.name,
    value,
    clean: Object.fromEntries(solutions.map(([bpm, solution]) => [bpm, solution.clean])),
    ceiling: ceiling(solutions[0]![1], SAFE),
  };
}

export function rows(): readonly Row[] {
  return FAMILIES.flatMap((family) =>
    LEVELS.flatMap((level) =>
      EXERCISES.flatMap((exercise) => exercise.values.map((value) => rowOf(exercise, family, level, value))),
    ),
  );
}
