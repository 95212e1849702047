/** Bytes hashed at once. */
const BLOCK = 1 << 20;
/** Letters of a fingerprint: 64 bits tell all recordings of a life apart. */
const LETTERS = 16;

/** Tells one recording of one passage from any other: SHA-256 (FIPS 180-4) chained over its blocks, so that none need be kept. */
export class Fingerprint {
  private readonly block = new Uint8Array(BLOCK);
  private filled = 0;
  private chain: Uint8Array;

  constructor(passage: string) {
    this.chain = new TextEncoder().encode(passage);
  }

  async add(bytes: Uint8Array): Promise<void> {
    for (let at = 0; at < bytes.length; ) {
      const part = bytes.subarray(at, at + BLOCK - this.filled);
      this.block.set(part, this.filled);
      this.filled += part.length;
      at += part.length;
      if (this.filled === BLOCK) await this.close();
    }
  }

  async text(): Promise<string> {
    await this.close();
    return Array.from(this.chain, (byte) => byte.toString(16).padStart(2, '0'))
      .join('')
      .slice(0, LETTERS);
  }

  private async close(): Promise<void> {
    const all = new Uint8Array(this.chain.length + this.filled);
    all.set(this.chain);
    all.set(this.block.subarray(0, this.filled), this.chain.length);
    this.chain = new Uint8Array(await crypto.subtle.digest('SHA-256', all));
    this.filled = 0;
  }
}
