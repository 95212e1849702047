import type { PlayerFile } from '../../player/player-file';
import type { Problem } from '../../rules/rule';

/** What is wrong in a player file, as problems of any document are shown. The only fix of a slip is likely what was meant. */
export function playerProblems({ problems }: PlayerFile): readonly Problem[] {
  return problems.map(({ fixes, ...problem }) => ({
    ...problem,
    fixes: fixes.length === 1 ? fixes.map((fix) => ({ ...fix, certainty: 'likely' as const })) : fixes,
  }));
}
