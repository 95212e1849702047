import type { Runtime } from '../../server/workspace/pace';
import { random } from '../bench/mixed';

const NOTES = [
  'D5',
  'F#5',
  'A5',
  'D6o',
  'E6o',
  'G4',
  'B4',
  'A4+E5',
  'F#6o',
  'G6o+D7o',
  'F5<>Bb5',
  '<>A4',
  'E5<>A5 [II]',
  'wave',
  'H5',
  'D9o',
];
const LINES = [
  'passage: Mole head',
  'tempo: 1/4 = 72',
  'motif wave = 1/16 D5 E5 F#5',
  '> Full bows.',
  '// sea room',
  'hand: smal',
  '',
];

/** Somebody who types: one key at a time, now and then a word taken out, a line pasted, the last change undone. Always the same for one seed. */
export class Typist {
  text: string;
  private readonly next: () => number;
  private pending = '';
  private at = 0;
  private undo = '';

  constructor(seed: number, start: string) {
    this.next = random(seed);
    this.text = start;
  }

  /** The text after one more change. */
  change(): string {
    const before = this.text;
    if (this.pending) this.key();
    else this.choose();
    // What is typed on and on would make every document as long as the day.
    if (this.text.length > 1500) this.text = this.text.slice(this.text.indexOf('\n', 500) + 1);
    this.undo = before;
    return this.text;
  }

  private key(): void {
    this.at = Math.min(this.at, this.text.length);
    this.put(this.pending.slice(0, 1), 0);
    this.pending = this.pending.slice(1);
  }

  private choose(): void {
    const chance = this.next();
    this.at = Math.floor(this.next() * (this.text.length + 1));
    if (chance < 0.5) this.pending = ` ${this.one(NOTES)} `;
    else if (chance < 0.65) this.pending = `\n${this.one(LINES)}\n`;
    else if (chance < 0.85) this.put('', Math.floor(this.next() * 12));
    else if (chance < 0.95) this.put(`\n1/8 ${Array.from({ length: 8 }, () => this.one(NOTES)).join(' ')} |\n`, 0);
    else this.text = this.undo;
  }

  private put(text: string, taken: number): void {
    this.text = this.text.slice(0, this.at) + text + this.text.slice(this.at + taken);
    this.at += text.length;
  }

  private one(from: readonly string[]): string {
    return from[Math.floor(this.next() * from.length)] ?? '';
  }
}

/** A machine on which every look at the clock finds time gone, so that work gives way as often as it can. */
export function hurried(): Runtime {
  let time = 0;
  return {
    now: () => {
      time += 7;
      return time;
    },
    pause: () => new Promise((go) => setImmediate(go)),
  };
}
