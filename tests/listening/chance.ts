/** Numbers that look like chance and are the same for the same seed (mulberry32, public domain; from memory). */
export class Chance {
  constructor(private state: number) {}

  /** 0 up to 1. */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 0x1_0000_0000;
  }

  between(least: number, most: number): number {
    return least + (most - least) * this.next();
  }

  whole(least: number, most: number): number {
    return Math.floor(this.between(least, most + 1));
  }

  pick<T>(some: readonly T[]): T {
    return some[Math.floor(this.next() * some.length)] as T;
  }

  is(share: number): boolean {
    return this.next() < share;
  }

  /** Standard normal (Box and Muller 1958). */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }
}
