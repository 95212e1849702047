import { covering, type Path } from '../../grammar/at';
import { DIRECTIONS, JUMPS, MARKS } from '../../grammar/marks';
import type { Span } from '../../grammar/tree';
import { later, t } from '../l10n/translate';

const MEANINGS: ReadonlyMap<string, string> = new Map(
  [...MARKS, ...DIRECTIONS, ...JUMPS].map(({ word, meaning }) => [word, meaning]),
);

const TEXT = later('A text printed over the note or rest that follows.');

/** The word at a place that says what is printed or how to go on, and what it means; its span counts from the start of the line. */
export function markHelp({ items, column }: Path): { readonly span: Span; readonly markdown: string } | undefined {
  const inner = items.at(-1);
  const word =
    inner?.kind === 'direction' || inner?.kind === 'jump'
      ? inner
      : covering(
          items.flatMap((item) =>
            item.kind === 'group' && item.mark
              ? [item.mark]
              : item.kind === 'event' || item.kind === 'rest'
                ? (item.marks ?? [])
                : [],
          ),
          column,
        );
  if (!word) return undefined;
  const meaning = word.word.startsWith('"') ? TEXT : MEANINGS.get(word.word);
  return meaning === undefined
    ? undefined
    : { span: { start: word.start, end: word.end }, markdown: `**${word.word}** ${t(meaning)}` };
}
