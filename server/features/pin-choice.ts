import { pinEdits } from '../rules/pinning';
import type { Edit } from '../rules/rule';
import { alternatives } from '../solver/alternatives';
import type { SolvedReading } from './reading';

/** Which alternative of which event a user has chosen. */
export interface Choice {
  readonly passage: number;
  readonly event: number;
  /** Index into what `alternatives` gives for that event. */
  readonly alternative: number;
}

/** The edits that write a chosen alternative into the text; undefined where there is no such choice. */
export function pinChosen(
  { tree, solutions }: SolvedReading,
  { passage, event, alternative }: Choice,
): readonly Edit[] | undefined {
  const solution = solutions[passage];
  const chosen = solution && alternatives(solution, event)[alternative];
  return chosen && pinEdits(tree, solution.passage, event, chosen.fingering);
}
