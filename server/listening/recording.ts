import type { ScenePassage } from '../protocol/scene';
import { openSound } from './audio/sound';
import { Fingerprint } from './fingerprint';
import { hearSound, type Listening } from './listen';

/** What a file of sound holds of a passage, and what tells that file from any other. */
export interface HeardRecording {
  readonly listening: Listening;
  readonly fingerprint: string;
}

/**
 * Listens to a file as it streams in; nothing of it is kept.
 *
 * @throws UnreadableAudio
 */
export async function hearRecording(bytes: AsyncIterable<Uint8Array>, passage: ScenePassage): Promise<HeardRecording> {
  const fingerprint = new Fingerprint(passage.title);
  async function* passing(): AsyncGenerator<Uint8Array> {
    for await (const block of bytes) {
      await fingerprint.add(block);
      yield block;
    }
  }
  const stream = passing();
  const listening = await hearSound(await openSound(stream), passage);
  // What follows the sound in a file tells it from others too.
  for await (const _ of stream);
  return { listening, fingerprint: await fingerprint.text() };
}
