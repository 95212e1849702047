import { quoted } from '../../grammar/problems';
import type { Word } from '../../grammar/tree';
import { fault, type Reading } from '../../grammar/values/read-value';
import type { Style } from '../../grammar/values/value-tree';
import type { HandChoice } from '../hand/hands';
import type { OwnHand } from '../hand/own-hand';
import type { Level } from '../hand/skill';
import type { InstrumentChoice } from '../instrument/choice';
import { t } from '../l10n/translate';

/** What a player's file says that a passage is read with. */
export interface PlayerChoice extends OwnHand {
  /** As the player is called in messages. */
  readonly name: string;
  readonly instrument?: InstrumentChoice;
  readonly hand?: HandChoice;
  readonly level?: Level;
  readonly style?: Style;
}

/** What became of a player file that a passage names: read, with how many problems it has of its own, or not there, and why. */
export type PlayerAnswer = { readonly choice: PlayerChoice; readonly faults: number } | { readonly missing: string };

/** Gives the player file of a path as a passage writes it. */
export type PlayerLookup = (path: string) => PlayerAnswer;

/** The ending of player files, and of nothing else. */
export const PLAYER_ENDING = '.player';

/** Longer names than this no file system takes. */
const LONGEST_PATH = 255;

/**
 * Reads the path of a player file. It leads down from the passage's own folder and never out of it: a passage that
 * somebody sends must not make the editor open files elsewhere.
 */
export function choosePlayerPath(written: Word): Reading<string> {
  const { text } = written;
  const misread = (why: string, meant: readonly string[]): Reading<string> => fault(written, why, meant);
  const parts = text.split(/[/\\]/).filter((part) => !/^(?:|\.|\.\.|~.*|.*:)$/.test(part));
  const plain = parts.join('/');
  const ended = (path: string) => (path.endsWith(PLAYER_ENDING) ? path : `${path.replace(/\.[^./]*$/, '')}${PLAYER_ENDING}`);
  const inside = plain === '' ? [] : [ended(plain), ended(parts.at(-1) ?? plain)];
  if (/^(?:[a-z][a-z\d+.-]*:|[/\\~])/i.test(text)) {
    return misread(
      t("{text} is a place on one machine or on the web; name a file in this passage's folder or below it, as in ines{ending}", {
        text: quoted(text),
        ending: PLAYER_ENDING,
      }),
      [...inside].reverse(),
    );
  }
  if (text.split(/[/\\]/).includes('..')) {
    return misread(
      t(
        "{text} leads out of this passage's folder, where no player file is looked for; keep the file beside the passage or below it",
        { text: quoted(text) },
      ),
      [...inside].reverse(),
    );
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be in a name.
  if (text.length > LONGEST_PATH || /[\u0000-\u001f<>"|?*]/.test(text)) {
    return misread(t("{text} has signs that file names can't have, or is too long for one", { text: quoted(text) }), []);
  }
  if (!text.endsWith(PLAYER_ENDING) || text.length === PLAYER_ENDING.length) {
    return misread(
      t('the name of a player file ends in {ending}, and {text} does not', { ending: PLAYER_ENDING, text: quoted(text) }),
      inside.slice(0, 1),
    );
  }
  if (plain !== text)
    return misread(
      t('{text} is not a plain path; write it with / and no empty parts', { text: quoted(text) }),
      inside.slice(0, 1),
    );
  return { value: text };
}
