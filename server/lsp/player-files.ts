import type { Connection } from 'vscode-languageserver';
import { t } from '../l10n/translate';
import { type ClientOptions, type PlayerParams, READ_PLAYER_REQUEST, type ReadPlayerReply } from '../protocol/messages';
import type { ReadPlayer } from '../workspace/players';

/** Longest that a passage waits for the file of its player, ms: a lost answer must not leave it without any fingering. */
const PATIENCE = 5000;

/** Player files come from the client: the server reads none itself. */
export function playerReader(connection: Connection, { players }: ClientOptions): ReadPlayer {
  if (!players) return async () => ({ missing: t('this editor hands no player files to Passagework; the command reads them') });
  return async (uri, file) => {
    const params: PlayerParams = { uri, file };
    let timer: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<ReadPlayerReply>((stop) => {
      timer = setTimeout(() => stop({ missing: t('the editor did not hand it over in time') }), PATIENCE);
    });
    try {
      return await Promise.race([connection.sendRequest<ReadPlayerReply>(READ_PLAYER_REQUEST, params), late]);
    } catch (error) {
      return {
        missing: t("the editor can't hand it over ({reason})", {
          reason: error instanceof Error ? error.message : String(error),
        }),
      };
    } finally {
      clearTimeout(timer);
    }
  };
}
