import { describe, it } from 'vitest';
import { CLEAN, folder, passagework, type Ran, UNPLAYABLE } from './command';

export const SLIP = '1/4 d5,  E5\n';

/** A table of what users expect, each with its test: in a folder of its own, with files of every kind. */
export function conventions(table: Readonly<Record<string, (at: string, run: (...words: string[]) => Ran) => void>>): void {
  describe('conventions', () => {
    it.each(Object.entries(table))('%s', (_, holds) => {
      using place = folder({
        'clean.passage': CLEAN,
        'unplayable.passage': UNPLAYABLE,
        'warned.passage': '1/4 F#6o [third]\n',
        'slip.passage': SLIP,
        'deep/kit.player': 'hand: small\n',
      });
      holds(place.path, (...words) => passagework(words, { cwd: place.path }));
    });
  });
}
