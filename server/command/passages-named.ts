import type { Solution } from '../solver/solution';
import { CannotRun } from './cannot-run';

/** The passages that `--passage` names, by their letters or by any case of them; without a name all that have notes. */
export function passagesNamed(solutions: readonly Solution[], title: string | undefined): readonly Solution[] {
  const played = solutions.filter(({ passage }) => passage.events.length > 0);
  if (played.length === 0) throw new CannotRun('There is no passage in it to practise.');
  if (title === undefined) return played;
  const name = title.trim();
  const found = played.filter(({ passage }) => passage.title === name);
  const like = found.length ? found : played.filter(({ passage }) => passage.title.toLowerCase() === name.toLowerCase());
  if (like.length) return like;
  throw new CannotRun(`--passage: there is no passage “${name}” in it. It has: ${titlesOf(played)}.`);
}

/** The one passage that is meant. */
export function onePassage(solutions: readonly Solution[], title: string | undefined): Solution {
  const found = passagesNamed(solutions, title);
  const [one] = found;
  if (!one || found.length > 1) throw new CannotRun(`Say which passage it is with --passage. It has: ${titlesOf(found)}.`);
  return one;
}

function titlesOf(some: readonly Solution[]): string {
  return some.map(({ passage }) => passage.title || '(without a name)').join(', ');
}
