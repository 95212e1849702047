import { type Caret, playerCaretAt } from '../../../grammar/caret';
import { STRING_NAMES } from '../../../grammar/hint-names';
import { PLAYER_KEYS } from '../../../grammar/player-keys';
import { t } from '../../l10n/translate';
import { MANNER_WORDS, readTried } from '../../player/attempt-words';
import type { PlayerFile } from '../../player/player-file';
import { type Completion, type Offer, valueOffers } from '../completion';
import { mannerMeaning } from './manner-meaning';

/** What could be written at a place of a player file: keys and strings at the start of a line, values behind a colon, nodes behind a string. */
export function playerCompletions({ text, values }: PlayerFile, offset: number): readonly Completion[] {
  const caret = playerCaretAt(text, offset);
  const span = caret.word;
  // Straight behind a colon the value comes after a space.
  const space = text[span.start - 1] === ':' ? ' ' : '';
  return offersFor(caret, new Set(Object.keys(values))).map((offer, order) => {
    const written = `${space}${offer.text ?? offer.label}`;
    return { ...offer, text: written, span, order };
  });
}

function offersFor(caret: Caret, written: ReadonlySet<string>): readonly Offer[] {
  if (caret.kind === 'value') return valueOffers(caret);
  if (caret.kind === 'manner') return mannerOffers(caret.words);
  if (caret.kind !== 'key') return [];
  const keys = PLAYER_KEYS.filter(({ key }) => !written.has(key)).map(
    ({ key, meaning }): Offer => ({ label: `${key}:`, kind: 'setting', detail: t(meaning), text: `${key}: ` }),
  );
  const strings = STRING_NAMES.map((name): Offer => {
    const detail = t('How attempts on string {name} went, as in {name} 1/4: 4 of 10.', { name });
    return { label: name, kind: 'hint', detail, text: `${name} ` };
  });
  return [...keys, ...strings];
}

function mannerOffers(words: readonly string[]): readonly Offer[] {
  return (words.includes('stopped') ? MANNER_WORDS : []).flatMap((word) => {
    const tried = readTried(`I ${word}`);
    if ('faults' in tried) return [];
    const text = `${word}: \${1:0} of \${2:1}`;
    return { label: word, kind: 'hint', detail: mannerMeaning(tried.value), text, snippet: true };
  });
}
