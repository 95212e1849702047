/** A recording that can't be read; the message says why and what to do, for players. */
export class UnreadableAudio extends Error {
  override readonly name = 'UnreadableAudio';
}
