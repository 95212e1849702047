/** The bits ran out: more of the file is needed, or it ends too soon. */
export class OutOfBits extends Error {
  override readonly name = 'OutOfBits';
}

/** Bits a window is sure of, wherever in a byte it begins. */
const SURE = 25;

/** Reads numbers of any width, highest bit first. */
export class BitReader {
  /** Bits read so far. */
  private at = 0;
  private readonly end: number;

  constructor(private readonly bytes: Uint8Array) {
    this.end = 8 * bytes.length;
  }

  /** Whole bytes read so far. */
  get read(): number {
    return Math.ceil(this.at / 8);
  }

  /** Unsigned, 0 to 32 bits. */
  unsigned(bits: number): number {
    if (bits > SURE) return this.unsigned(bits - 16) * 0x1_0000 + this.unsigned(16);
    const value = bits === 0 ? 0 : this.window() >>> (32 - bits);
    this.pass(bits);
    return value;
  }

  /** Two's complement, 1 to 33 bits. */
  signed(bits: number): number {
    const sign = this.unsigned(1);
    return this.unsigned(bits - 1) - sign * 2 ** (bits - 1);
  }

  /** How many zeros stand before the next one; passes that one too. */
  unary(): number {
    const from = this.at;
    for (;;) {
      const window = this.window();
      const zeros = Math.clz32(window);
      if (window !== 0) {
        this.pass(zeros + 1);
        return this.at - from - 1;
      }
      this.pass(32 - (this.at & 7));
    }
  }

  /** On to the next whole byte. */
  align(): void {
    this.at = 8 * this.read;
  }

  /** The next 32 bits, of which the last seven may be missing; zeros past the end. */
  private window(): number {
    const { bytes } = this;
    const i = this.at >> 3;
    const whole = ((bytes[i] ?? 0) << 24) | ((bytes[i + 1] ?? 0) << 16) | ((bytes[i + 2] ?? 0) << 8) | (bytes[i + 3] ?? 0);
    return whole << (this.at & 7);
  }

  private pass(bits: number): void {
    this.at += bits;
    if (this.at > this.end) throw new OutOfBits();
  }
}
