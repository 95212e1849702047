import { lineBreakOf } from '../../grammar/parse';
import { PLAYER_KEY_NAMES, type PlayerKey } from '../../grammar/player-keys';
import type { Edit } from '../../grammar/tree';
import { readPlayer } from './read-player';

/**
 * The edit that sets a line of a player file. It changes the value of the last line of that key, whose comment stays; where there
 * is none, it writes one where such files have it: after the keys that come before.
 */
export function setValue(text: string, key: PlayerKey, value: string): Edit {
  const { lines } = readPlayer(text);
  const lineOf = (name: PlayerKey) => lines.findLast((line) => line.name === name);
  const own = lineOf(key);
  if (own?.key && own.value) {
    const colon = text.indexOf(':', own.key.end) + 1;
    const empty = own.value.text === '';
    return {
      span: empty ? { start: colon, end: colon } : { start: own.value.start, end: own.value.end },
      text: empty ? ` ${value}` : value,
    };
  }
  const lineBreak = lineBreakOf(text);
  const before = PLAYER_KEY_NAMES.slice(0, PLAYER_KEY_NAMES.indexOf(key))
    .flatMap((name) => lineOf(name) ?? [])
    .at(-1);
  const line = `${key}: ${value}`;
  return before
    ? { span: { start: before.end, end: before.end }, text: `${lineBreak}${line}` }
    : { span: { start: 0, end: 0 }, text: `${line}${lineBreak}` };
}
