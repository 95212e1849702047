import type { EventSums, Evidence } from './evidence';
import type { ExpectedEvent } from './expected';

/** One event as it was played: frames from and up to. */
export interface Segment {
  /** Index into the expected events. */
  readonly index: number;
  readonly from: number;
  readonly to: number;
}

/** A run through the passage or a part of it, without stopping. */
export type Take = readonly Segment[];

export interface Alignment {
  readonly takes: readonly Take[];
  /** Nats by which it beats nothing of the passage having been played. */
  readonly gain: number;
  /** How much slower than written the first run began: 1 as written. */
  readonly pace: number;
}

/** Standard deviation of a note's length beside the tempo so far, as a logarithm; of the first note beside the usual tempo; of a silence. */
const SPREAD = { note: 0.22, first: 0.45, silence: 0.5 } as const;
/** What a length may cost at most, nats: players hesitate. */
const MOST = 5;
/** Shortest and longest a note may last beside the tempo so far, as logarithms; how fast the tempo follows the notes. */
const RANGE = 1;
const FOLLOWS = 0.25;
/** Nats: to stop, to begin again, to leave out a note, and what a beginning heard at the right place gains. */
const STOPS = 4;
const BEGINS = { passage: 2, bar: 7, inside: 12 } as const;
const LEAVES_OUT = 8;
/** Nats that an event costs which went wrong, however long it is. */
const GOES_WRONG = 3;
const HEARD_BEGIN = 2;
/** A path that far behind the best does not come back. */
const BEAM = 60;
/** Paces tried, from half as fast to half as fast again. */
const PACES = [0.6, 0.8, 1, 1.3, 1.7, 2.2] as const;

/** What came before an event that begins: the one before it, the one before that, or nothing. */
const FROM = { before: 1, leftOut: 2, nothing: 3 } as const;
type From = (typeof FROM)[keyof typeof FROM];

/**
 * Where every note of a passage is in a recording: dynamic time warping of frames onto events (H. Sakoe and S. Chiba, IEEE Trans. ASSP 26,
 * 1978), with a length for every event that follows the tempo heard so far, and a path that may stop anywhere and begin again, for takes
 * and false starts. Exact but for the tempo, which each path carries along.
 */
export function align(expected: readonly ExpectedEvent[], evidence: Evidence, hop: number, pace: number): Alignment {
  return new Aligner(expected, evidence, hop, pace).run();
}

/** The pace at which a coarse look at the recording fits best. */
export function paceOf(expected: readonly ExpectedEvent[], coarse: Evidence, hop: number): number {
  let best = 1;
  let most = Number.NEGATIVE_INFINITY;
  for (const pace of PACES) {
    const { gain, pace: heard } = align(expected, coarse, hop, pace);
    if (gain > most) [most, best] = [gain, heard];
  }
  return best;
}

class Aligner {
  private readonly events: number;
  private readonly stretches: number;
  /** Logarithms of the written lengths in stretches, and of whole numbers of them. */
  private readonly lengths: Float64Array;
  private readonly logs: Float64Array;
  private readonly longest: number;
  /** By event and stretch: the length of what ends there, where what begins there comes from. */
  private readonly lasted: Uint16Array;
  private readonly from: Uint8Array;
  /** By stretch: the event after which the playing stopped there; -1 where it had stopped already. */
  private readonly stopped: Int32Array;
  /** Rings over the last `longest` stretches: what it is worth to begin an event there, and the tempo it is begun in. */
  private readonly worth: Float64Array;
  private readonly tempo: Float32Array;
  private readonly alive: Int32Array;

  constructor(
    private readonly expected: readonly ExpectedEvent[],
    private readonly evidence: Evidence,
    hop: number,
    private readonly pace: number,
  ) {
    this.events = expected.length;
    this.stretches = evidence.count;
    const stretch = hop * evidence.step;
    this.lengths = Float64Array.from(expected, ({ seconds }) => Math.log(Math.max(1, seconds / stretch)));
    const most = Math.max(...this.lengths) + Math.max(0, Math.log(pace)) + RANGE + 0.7;
    this.longest = Math.max(4, Math.min(0xfff0, this.stretches, Math.ceil(Math.exp(most))));
    this.logs = Float64Array.from({ length: this.longest + 2 }, (_, i) => Math.log(Math.max(0.5, i)));
    this.lasted = new Uint16Array(this.events * (this.stretches + 1));
    this.from = new Uint8Array(this.events * (this.stretches + 1));
    this.stopped = new Int32Array(this.stretches + 1).fill(-1);
    this.worth = new Float64Array(this.events * (this.longest + 1)).fill(Number.NEGATIVE_INFINITY);
    this.tempo = new Float32Array(this.events * (this.longest + 1));
    this.alive = new Int32Array(this.events).fill(-1);
  }

  run(): Alignment {
    const { events, stretches, evidence } = this;
    const ends = new Float64Array(events);
    const tempi = new Float64Array(events);
    let idle = 0;
    for (let now = 0; now <= stretches; now++) {
      if (now > 0) idle += (evidence.nothing[now] as number) - (evidence.nothing[now - 1] as number);
      for (let i = 0; i < events; i++) this.end(i, now, ends, tempi);
      for (let i = 0; i < events; i++) {
        const stops = (ends[i] as number) - (i === events - 1 ? 0 : STOPS);
        if (stops > idle) {
          idle = stops;
          this.stopped[now] = i;
        }
      }
      this.begin(now, idle, ends, tempi);
    }
    return this.traced(idle - (evidence.nothing[stretches] as number));
  }

  /** The best way in which an event ends now. */
  private end(i: number, now: number, ends: Float64Array, tempi: Float64Array): void {
    ends[i] = Number.NEGATIVE_INFINITY;
    const last = this.alive[i] as number;
    if (last < 0 || now - last > this.longest) return;
    const { written, wrong } = this.evidence.sums[i] as EventSums;
    const length = this.lengths[i] as number;
    const here = written[now] as number;
    const hereWrong = (wrong[now] as number) - GOES_WRONG;
    const { silence } = this.expected[i] as ExpectedEvent;
    const event = i * (this.longest + 1);
    let lasted = 0;
    for (let d = Math.max(1, now - last); d <= Math.min(now, this.longest); d++) {
      const slot = event + ((now - d) % (this.longest + 1));
      const worth = this.worth[slot] as number;
      if (worth === Number.NEGATIVE_INFINITY) continue;
      const first = this.from[(now - d) * this.events + i] === FROM.nothing;
      const off = (this.logs[d] as number) - length - (this.tempo[slot] as number);
      if (!silence && (off > RANGE || (off < -RANGE && d > 2))) continue;
      const spread = silence ? SPREAD.silence : first ? SPREAD.first : SPREAD.note;
      const cost = Math.min(MOST, (off * off) / (2 * (spread * spread + 1 / (d * d))));
      const begun = now - d;
      const fits = Math.max(here - (written[begun] as number), hereWrong - (wrong[begun] as number));
      const value = worth + fits - cost;
      if (value > (ends[i] as number)) {
        ends[i] = value;
        lasted = d;
      }
    }
    if (lasted === 0) return;
    this.lasted[now * this.events + i] = lasted;
    const before = this.tempo[event + ((now - lasted) % (this.longest + 1))] as number;
    const off = (this.logs[lasted] as number) - length - before;
    const first = this.from[(now - lasted) * this.events + i] === FROM.nothing;
    tempi[i] = silence ? before : before + (first ? 0.8 : FOLLOWS) * Math.max(-0.4, Math.min(0.4, off));
  }

  /** What it is worth to begin each event now. */
  private begin(now: number, idle: number, ends: Float64Array, tempi: Float64Array): void {
    const usual = Math.log(this.pace);
    const heard = HEARD_BEGIN * (this.evidence.begins[now] ?? 0);
    const least = ends.reduce((most, each) => Math.max(most, each), idle) - BEAM;
    for (let i = 0; i < this.events; i++) {
      const { begins, silence } = this.expected[i] as ExpectedEvent;
      let worth = idle - BEGINS[begins];
      let from: From = FROM.nothing;
      let tempo = usual;
      const before = ends[i - 1] ?? Number.NEGATIVE_INFINITY;
      if (before > worth) [worth, from, tempo] = [before, FROM.before, tempi[i - 1] as number];
      const leaving = (ends[i - 2] ?? Number.NEGATIVE_INFINITY) - (this.expected[i - 1]?.silence ? 1 : LEAVES_OUT);
      if (leaving > worth) [worth, from, tempo] = [leaving, FROM.leftOut, tempi[i - 2] as number];
      const slot = i * (this.longest + 1) + (now % (this.longest + 1));
      if (worth < least) {
        this.worth[slot] = Number.NEGATIVE_INFINITY;
        continue;
      }
      this.worth[slot] = worth + (silence ? 0 : heard);
      this.tempo[slot] = tempo;
      this.from[now * this.events + i] = from;
      this.alive[i] = now;
    }
  }

  private traced(gain: number): Alignment {
    const takes: Segment[][] = [];
    const { step } = this.evidence;
    let now = this.stretches;
    while (now >= 0) {
      let i = this.stopped[now] as number;
      if (i < 0) {
        now--;
        continue;
      }
      const take: Segment[] = [];
      for (;;) {
        const begun = now - (this.lasted[now * this.events + i] as number);
        take.push({ index: i, from: begun * step, to: now * step });
        const from = this.from[begun * this.events + i];
        now = begun;
        if (from === FROM.nothing) break;
        i -= from === FROM.leftOut ? 2 : 1;
      }
      takes.push(take.reverse());
    }
    takes.reverse();
    return { takes, gain, pace: this.heardPace(takes) };
  }

  /** How much slower than written the longest run was. */
  private heardPace(takes: readonly Take[]): number {
    const longest = takes.reduce<Take>((most, take) => (take.length > most.length ? take : most), []);
    let written = 0;
    let lasted = 0;
    for (const { index, from, to } of longest) {
      written += Math.exp(this.lengths[index] as number);
      lasted += (to - from) / this.evidence.step;
    }
    return written > 0 && lasted > 0 ? lasted / written : this.pace;
  }
}
