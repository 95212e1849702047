import { t } from '../l10n/translate';
import type { Resolved } from '../passage/resolve';
import type { Overrides } from '../passage/setup';
import { PAIN } from '../scene/words';
import type { Solution } from '../solver/solution';
import type { Solver } from '../solver/solve';
import { strainOf, withCaution, withRests } from './caution';
import type { Exercise } from './exercise';
import { setting } from './exercise-text';
import type { PracticeKind } from './kind';
import { playerLines } from './player-lines';
import { type Rehearsed, rehearse } from './rehearsal';
import { sourceBars } from './source';

/** A read and fingered file, and what is wanted of it. */
export interface PracticeRequest {
  readonly resolved: Resolved;
  /** Of the passages wanted, in the order of the file. */
  readonly solutions: readonly Solution[];
  /** Its caches serve the exercises too. */
  readonly solver: Solver;
  readonly kinds: readonly PracticeKind[];
  /** Chance of a clean run that a safe tempo keeps, 0 to 1. */
  readonly chance: number;
  /** Events that failed in a recording, worst first: hard spots are made of them and of no others. */
  readonly failed?: readonly number[];
  /** What the file was read with. */
  readonly overrides: Overrides;
  /** The file's name, for the heading. */
  readonly file?: string;
}

/** Exercises as the text of a `.passage` file. */
export interface Practice {
  /** Empty where there is nothing to practise. */
  readonly text: string;
  /** The kinds with the number of exercises made of each; 0 where no passage has what it needs. */
  readonly made: readonly { readonly kind: PracticeKind; readonly count: number }[];
}

/**
 * Practice material from solved passages. Every exercise is read and fingered before it is given out, so it parses, solves,
 * and keeps the fingering it is about; the same passages give the same text.
 */
export function practice(request: PracticeRequest): Practice {
  const { resolved, solutions, kinds } = request;
  const heads = solutions.map(({ passage }) => playerLines(resolved, passage, request.overrides));
  const common = (heads[0] ?? []).filter((line) => heads.every((head) => head.includes(line)));
  const made = kinds.map((kind) => ({ kind, count: 0 }));
  const passages = solutions.flatMap((solution, index) => {
    const head = heads[index] ?? [];
    const room = { settings: head, solver: request.solver };
    const source = {
      solution,
      bars: sourceBars(solution),
      chance: request.chance,
      ...(request.failed && { failed: request.failed }),
      rehearse: (exercise: Exercise) => rehearse(exercise, room)?.solution,
    };
    const own = head.filter((line) => !common.includes(line));
    return kinds.flatMap((kind, at) =>
      kind.exercises(source).flatMap((exercise) => {
        const titled = solutions.length > 1 ? { ...exercise, title: `${titleOf(solution)}: ${exercise.title}` } : exercise;
        const ready = rehearsed(titled, (one) => rehearse(one, room));
        if (!ready) return [];
        made[at]!.count++;
        return [withHead(ready.lines, head, own)];
      }),
    );
  });
  if (passages.length === 0) return { text: '', made };
  const quiet = made.flatMap(({ kind, count }) => (count > 0 && kind.quiets ? [`// check file: ${kind.quiets} off`] : []));
  return {
    text: `${[[...heading(request, common), ...quiet], ...passages].map((lines) => lines.join('\n')).join('\n\n')}\n`,
    made,
  };
}

/** With the rests and cautions that its fingering asks for. */
function rehearsed(exercise: Exercise, play: (exercise: Exercise) => Rehearsed | undefined): Rehearsed | undefined {
  const rested = exercise.rests ? withRests(exercise) : exercise;
  const first = play(rested);
  const strain = first && strainOf(rested, first.solution);
  return strain ? play(withCaution(rested, strain)) : first;
}

/** The settings that all exercises share stand once, at the head of the file. */
function withHead(lines: readonly string[], head: readonly string[], own: readonly string[]): readonly string[] {
  const [name = '', ...rest] = lines;
  return [name, ...own, ...rest.slice(head.length)];
}

function heading({ solutions, file, resolved }: PracticeRequest, common: readonly string[]): readonly string[] {
  const titles = solutions.map(titleOf).join(', ');
  const from = file === undefined ? titles : `${titles} (${file})`;
  // Editors call an unsaved file by its first line.
  return [
    setting('title', t('Exercises for {title}', { title: solutions.length === 1 ? titles : resolved.title || titles })),
    `// ${t('Exercises made by Passagework from {from}.', { from })}`,
    `// ${t('Change, shorten and reorder them as the student needs: this is passage text like any other.')}`,
    `// ${t(PAIN)}`,
    ...common,
  ];
}

function titleOf({ passage }: Solution): string {
  return passage.title || t('the passage');
}
