import type { PlayerFile } from '../../player/player-file';
import type { Problem } from '../../rules/rule';

/** What is wrong in a player file, as problems of any document are shown. The only cure of a slip is likely what was meant. */
export function playerProblems({ problems }: PlayerFile): readonly Problem[] {
  return problems.map(({ cures, ...problem }) => ({
    ...problem,
    fixes: cures.length === 1 ? cures.map((cure) => ({ ...cure, certainty: 'likely' as const })) : cures,
  }));
}
