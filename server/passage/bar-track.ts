import type { JumpWord } from '../../grammar/marks';
import type { MusicLine, Span } from '../../grammar/tree';
import type { Key } from '../music/interval';
import type { Meter } from '../music/meter';
import { beatAt, type Exact, exactly, NO_TIME, sum } from '../music/time';
import type { BarAtom } from './atom';
import { type BarStart, barCheck } from './bar';
import type { Context, Pending } from './context';
import type { Bar, BarRest } from './passage';
import type { LineProblem } from './problem';

/** A bar line that closes a bar, or (`length` 0) only says more of the one before it. */
export interface LineBar {
  /** Events of this line before it. */
  readonly events: number;
  readonly style: Bar['close'];
  readonly length: Exact;
  readonly meter: Meter | undefined;
  readonly key: Key | undefined;
  readonly clef: Bar['clef'];
  /** Of the ending that begins with this bar. */
  readonly ending?: readonly number[];
  /** With `length` 0 those of the bar before. */
  readonly jumps?: readonly JumpWord[];
  readonly rests?: readonly BarRest[];
  readonly together?: number;
  readonly endsHairpin?: true;
}

/** Counts the time of one line in bars, and finds the bars of the wrong length. */
export class BarTrack {
  readonly bars: LineBar[] = [];
  readonly problems: LineProblem[] = [];
  /** Bars closed on this line. */
  closed = 0;
  #filled: Exact;
  #loose: boolean;
  #firstBar: boolean;
  #upbeat: Exact | undefined;
  #start: BarStart;
  #jumps: readonly JumpWord[];
  #ending: readonly number[] | undefined;
  #rests: readonly BarRest[];
  #together: number | undefined;
  #endsHairpin = false;
  /** Places whose length isn't known since something there could not be read, in order, and how many of them are passed. */
  readonly #broken: readonly number[];
  #passed = 0;

  /** `lost` are the places of motifs that give less than they stand for. */
  constructor(
    readonly node: MusicLine,
    readonly context: Context,
    lost: readonly Span[],
  ) {
    this.#filled = context.filled;
    this.#loose = context.loose;
    this.#firstBar = context.firstBar;
    this.#upbeat = context.upbeat;
    this.#start = { start: node.items[0]?.start ?? 0, notes: [] };
    this.#jumps = context.pending.jumps;
    this.#ending = context.pending.ending;
    this.#rests = context.pending.rests;
    this.#broken = [...node.problems, ...lost].map(({ start }) => start).sort((a, b) => a - b);
  }

  /** Where in its bar the next note or rest falls, counted from 1 in the meter's beat, or in quarters where there is no meter. */
  get beat(): Exact {
    return beatAt(this.#filled, this.context.meter?.unit ?? 4);
  }

  /**
   * What is wrong with the bar still open at the end of the line, should it be the last of its passage: a bar still
   * being written may be short, but not too long.
   */
  get overfull(): LineProblem | undefined {
    const { meter } = this.context;
    if (!meter || this.out.loose) return undefined;
    const full = exactly(meter.count, meter.unit);
    if (this.#filled.lte(full)) return undefined;
    const end = this.node.items.at(-1)?.end ?? 0;
    return barCheck({
      length: this.#filled,
      full,
      meter,
      start: this.#start,
      bar: { start: end, end },
      inMotif: false,
      restore: this.context.duration,
    });
  }

  /** What the next line needs to know. */
  get out(): Pick<Context, 'filled' | 'loose' | 'firstBar' | 'upbeat'> {
    const loose = this.#loose || this.#passed < this.#broken.length;
    return { filled: this.#filled, loose, firstBar: this.#firstBar, upbeat: this.#upbeat };
  }

  /** A note or rest goes by; `start` is where it is written, absent for one out of a motif. */
  fill(length: Exact, start: number | undefined): void {
    if (start !== undefined) this.#start.notes.push({ at: this.#filled, start });
    this.#filled = sum(this.#filled, length);
  }

  /** What is pending for the bar that is open at the end of the line. */
  get pending(): Pick<Pending, 'jumps' | 'ending' | 'rests'> {
    return { jumps: this.#jumps, rests: this.#rests, ...(this.#ending && { ending: this.#ending }) };
  }

  /** A sign at the start of the bar that is open, or a word at its end; a word right behind a bar line belongs to the bar before. */
  jump(word: JumpWord, events: number): void {
    const before = this.#filled === NO_TIME && word !== 'segno' && word !== 'coda' && !this.context.firstBar;
    if (before || (this.#filled === NO_TIME && this.closed > 0 && word !== 'segno' && word !== 'coda'))
      this.bars.push({
        events,
        style: '|',
        length: NO_TIME,
        meter: this.context.meter,
        key: this.context.key,
        clef: this.context.clef,
        jumps: [word],
      });
    else this.#jumps = [...this.#jumps, word];
  }

  ending(times: readonly number[]): void {
    this.#ending = times;
  }

  /** A rest as it is written, before its time goes by. */
  rest(printed: Omit<BarRest, 'onset'>): void {
    this.#rests = [...this.#rests, { onset: this.#filled, ...printed }];
  }

  /** So many bars from the open one on are written as one rest. */
  restFor(bars: number): void {
    if (this.#filled === NO_TIME && bars > 1) this.#together = bars;
  }

  /** A hairpin ends before the bar line that comes next; false right behind one, where it ends before the next note. */
  endHairpin(): boolean {
    this.#endsHairpin = this.#filled !== NO_TIME;
    return this.#endsHairpin;
  }

  /** A bar line, after so many events of the line. */
  close(bar: BarAtom, events: number): void {
    const { meter } = this.context;
    const length = this.#filled;
    const { key, clef } = this.context;
    const more =
      length === NO_TIME
        ? {}
        : {
            ...(this.#ending && { ending: this.#ending }),
            ...(this.#jumps.length > 0 && { jumps: this.#jumps }),
            ...(this.#rests.length > 0 && { rests: this.#rests }),
            ...(this.#together !== undefined && { together: this.#together }),
            ...(this.#endsHairpin && { endsHairpin: true as const }),
          };
    this.bars.push({ events, style: bar.style, length, meter, key, clef, ...more });
    if (length !== NO_TIME) {
      this.#jumps = [];
      this.#ending = undefined;
      this.#rests = [];
      this.#together = undefined;
      this.#endsHairpin = false;
    }
    for (; (this.#broken[this.#passed] ?? Number.POSITIVE_INFINITY) < bar.span.end; this.#passed++) this.#loose = true;
    if (length !== NO_TIME) {
      if (meter && !this.#loose) this.#judge(bar, length, meter);
      this.#firstBar = false;
      this.closed++;
    }
    this.#filled = NO_TIME;
    this.#loose = false;
    this.#start = { start: bar.span.end, notes: [] };
  }

  #judge({ style, span, definition, duration }: BarAtom, length: Exact, meter: Meter): void {
    const full = exactly(meter.count, meter.unit);
    if (length === full) return;
    const short = length.lt(full);
    if (short && this.#firstBar) {
      this.#upbeat = length;
      return;
    }
    // The last bar, or the last before a repeat, gives back what the upbeat took.
    const ends = style === '||' || style === ':|';
    if (ends && this.#upbeat && sum(this.#upbeat, length) === full) return;
    const restore = duration ?? this.context.duration;
    this.problems.push(
      barCheck({ length, full, meter, start: this.#start, bar: span, inMotif: definition !== undefined, restore }),
    );
  }
}
