import { settingValues } from '../../grammar/parse';
import { later, t } from '../l10n/translate';
import { choosePlayerPath, type PlayerAnswer, type PlayerLookup } from '../player/player-choice';
import { choiceOf } from '../player/player-file';
import { readPlayer } from '../player/read-player';
import type { ReadPlayerReply } from '../protocol/messages';

/** Where the texts of player files come from: `file` is a path as the passage `uri` writes it. */
export type ReadPlayer = (uri: string, file: string) => Promise<ReadPlayerReply>;

/** The player files that open passages name, each asked for once until somebody says that it has changed. */
export interface Players {
  /** All that a text names, read. */
  lookup(uri: string, text: string): Promise<PlayerLookup>;
  /** A file has changed: the next lookup asks for it again. */
  changed(uri: string, file: string): void;
  closed(uri: string): void;
}

const UNREAD = later('it has not been read yet');

export function createPlayers(read: ReadPlayer): Players {
  const known = new Map<string, Map<string, Promise<PlayerAnswer>>>();

  function answer(uri: string, file: string): Promise<PlayerAnswer> {
    const files = known.get(uri) ?? new Map<string, Promise<PlayerAnswer>>();
    known.set(uri, files);
    const asked = files.get(file) ?? read(uri, file).then((reply) => answerOf(file, reply));
    files.set(file, asked);
    return asked;
  }

  return {
    async lookup(uri, text) {
      const named = namedPlayers(text);
      const answers = new Map<string, PlayerAnswer>();
      for (const file of named) answers.set(file, await answer(uri, file));
      return (file) => answers.get(file) ?? { missing: t(UNREAD) };
    },
    changed: (uri, file) => void known.get(uri)?.delete(file),
    closed: (uri) => void known.delete(uri),
  };
}

function answerOf(file: string, reply: ReadPlayerReply): PlayerAnswer {
  if ('missing' in reply) return reply;
  const player = readPlayer(reply.text);
  const name = file.slice(file.lastIndexOf('/') + 1).replace(/\.[^.]*$/, '');
  return { choice: choiceOf(player, name), faults: player.problems.length };
}

/** The player files that a text names, as its settings write them. Only the lines that may do so are read. */
export function namedPlayers(text: string): readonly string[] {
  const paths = settingValues(text, 'player').flatMap((value) => {
    const reading = choosePlayerPath(value);
    return 'value' in reading ? [reading.value] : [];
  });
  return [...new Set(paths)];
}
