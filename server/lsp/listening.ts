import { t } from '../l10n/translate';
import { countsIn, heardIn } from '../listening/heard';
import { hearRecording } from '../listening/recording';
import type { ListenParams, ListenReply } from '../protocol/messages';
import { scenePassage } from '../scene/scene';
import type { Players } from '../workspace/players';
import { readSettings } from '../workspace/settings';
import { snapshot } from '../workspace/snapshot';
import { NO_NOTES, passageAt, withNotes } from './passage-at';

/**
 * What a recording holds of the passage that a line stands in.
 *
 * @throws UnreadableAudio
 */
export async function listened(
  params: ListenParams,
  players: Players,
  recording: AsyncIterable<Uint8Array>,
): Promise<ListenReply> {
  const { uri, text, line } = params;
  const known = snapshot(text, 0, readSettings(params), undefined, { players: await players.lookup(uri, text) });
  const meant = passageAt(withNotes(known), line);
  if (!meant) return { problem: t(NO_NOTES) };
  const passage = scenePassage(meant);
  const { listening, fingerprint } = await hearRecording(recording, passage);
  const heard = heardIn(listening, meant, passage);
  if (listening.refused) return { problem: heard.summary.join(' ') };
  const { player, hand } = meant.passage.setup;
  return {
    passage: known.solutions.indexOf(meant),
    heard,
    fingerprint,
    counts: countsIn(listening, passage, hand.skill.inTune),
    ...(player?.file !== undefined && { player: player.file }),
  };
}
