import { STRING_NAMES } from '../../../grammar/hint-names';
import { MANNER_WORDS } from '../../player/attempt-words';
import { keyWord, type PlayerFile } from '../../player/player-file';
import { isPlayerKey, PLAYER_KEY_NAMES, PLAYER_KEYS } from '../../player/player-keys';
import type { Completion } from '../completion';
import { mannerMeaning } from './manner-meaning';

type Offer = Pick<Completion, 'label' | 'kind' | 'detail' | 'text'> & { readonly snippet?: boolean };

/** What could be written at a place of a player file: keys and strings at the start of a line, values behind a colon, nodes behind a string. */
export function playerCompletions({ text, values }: PlayerFile, offset: number): readonly Completion[] {
  const start = Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
  const before = text.slice(start, offset);
  if (/(^|\s)\/\//.test(before)) return [];
  const { offers, typed } = offersFor(before, new Set(Object.keys(values)));
  const span = { start: offset - typed.length, end: offset };
  return offers.map((offer, order) => ({ ...offer, span, order }));
}

function offersFor(before: string, written: ReadonlySet<string>): { readonly offers: readonly Offer[]; readonly typed: string } {
  const colon = before.indexOf(':');
  if (colon >= 0)
    return {
      offers: valueOffers(keyWord(before.slice(0, colon).trim()), before.slice(colon + 1)),
      typed: before.slice(colon + 1).trimStart(),
    };
  const string = /^\s*(I{1,3}|IV)\s+(\S*)$/i.exec(before);
  if (string) {
    const offers = MANNER_WORDS.map(
      (word): Offer => ({
        label: word,
        kind: 'hint',
        detail: mannerMeaning(word),
        text: `${word}: \${1:0} of \${2:1}`,
        snippet: true,
      }),
    );
    return { offers, typed: string[2] ?? '' };
  }
  const keys = PLAYER_KEY_NAMES.filter((key) => !written.has(key)).map(
    (key): Offer => ({ label: `${key}:`, kind: 'setting', detail: PLAYER_KEYS[key].meaning, text: `${key}: ` }),
  );
  const strings = STRING_NAMES.map(
    (name): Offer => ({
      label: name,
      kind: 'hint',
      detail: `How attempts on string ${name} went, as in ${name} 1/4: 4 of 10.`,
      text: `${name} `,
    }),
  );
  return { offers: [...keys, ...strings], typed: before.trimStart() };
}

function valueOffers(key: string, typed: string): readonly Offer[] {
  if (!isPlayerKey(key) || /\S\s/.test(typed)) return [];
  const { meaning, example, words } = PLAYER_KEYS[key];
  const space = typed === '' ? ' ' : '';
  const listed = words.map((label): Offer => ({ label, kind: 'value', detail: meaning, text: `${space}${label}` }));
  return words.includes(example)
    ? listed
    : [...listed, { label: example, kind: 'value', detail: `For example. ${meaning}`, text: `${space}${example}` }];
}
