/** Bytes that arrive in blocks, read in pieces of the reader's own size; holds no more than one block and one piece. */
export class ByteSource {
  private readonly blocks: AsyncIterator<Uint8Array>;
  private held: Uint8Array = new Uint8Array(0);
  private ended = false;

  constructor(blocks: AsyncIterable<Uint8Array>) {
    this.blocks = blocks[Symbol.asyncIterator]();
  }

  /** So many bytes; fewer only at the end. */
  async take(count: number): Promise<Uint8Array> {
    await this.fill(count);
    return this.cut(count);
  }

  /** The same without moving on. */
  async peek(count: number): Promise<Uint8Array> {
    await this.fill(count);
    return this.held.subarray(0, count);
  }

  /** Whatever has arrived, at most so many bytes; empty at the end. */
  async some(most: number): Promise<Uint8Array> {
    await this.fill(1);
    return this.cut(most);
  }

  /** Moves on by so many bytes, keeping none of them; false where the end comes first. */
  async skip(count: number): Promise<boolean> {
    let left = count;
    while (left > 0) {
      const passed = await this.some(left);
      if (passed.length === 0) return false;
      left -= passed.length;
    }
    return true;
  }

  private cut(count: number): Uint8Array {
    const piece = this.held.subarray(0, count);
    this.held = this.held.subarray(piece.length);
    return piece;
  }

  private async fill(count: number): Promise<void> {
    const parts = [this.held];
    let length = this.held.length;
    while (length < count && !this.ended) {
      const { value, done } = await this.blocks.next();
      if (done) this.ended = true;
      else {
        parts.push(value);
        length += value.length;
      }
    }
    if (parts.length === 1) return;
    const all = new Uint8Array(length);
    let at = 0;
    for (const part of parts) {
      all.set(part, at);
      at += part.length;
    }
    this.held = all;
  }
}
