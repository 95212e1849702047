import { createTwoFilesPatch } from 'diff';
import type { Examined } from './examine';
import { reportedName } from './inputs';
import { visibleLines } from './visible';

/** What fixes or formatting would change in the texts, as a patch; empty where nothing would. */
export function differences(changed: readonly Pick<Examined, 'name' | 'as' | 'text' | 'before'>[]): string {
  return changed
    .flatMap(({ name, as, text, before }) => {
      if (before === undefined || before === text) return [];
      const file = reportedName(as ?? name) ?? 'standard input';
      // A carriage return at the end of a line belongs to its break.
      const [old, now] = [before, text].map((each) => each.replace(/\r\n?/g, '\n'));
      return createTwoFilesPatch(`a/${file}`, `b/${file}`, old!, now!, undefined, undefined, { context: 3 })
        .replace(/^=+\n/, '')
        .trimEnd();
    })
    .map(visibleLines)
    .join('\n');
}
