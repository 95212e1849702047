import { type Frames, framesOf } from '../../server/listening/frames';
import { hear, type Listening } from '../../server/listening/listen';
import type { HeardNote } from '../../server/listening/verdict';
import type { Played } from './performance';
import { soundOf, type TrueTake } from './take';

/** One played note beside what was heard of it. */
export interface Pair {
  readonly take: TrueTake;
  readonly played: Played;
  readonly heard: HeardNote | undefined;
  readonly double: boolean;
}

/** Notes farther apart than this are not the same, s. */
const SAME = 0.5;

export async function listened(
  take: TrueTake,
): Promise<{ readonly frames: Frames; readonly listening: Listening; readonly pairs: readonly Pair[] }> {
  const frames = await framesOf(soundOf(take.samples, take.how.rate));
  const listening = hear(frames, take.scene);
  return { frames, listening, pairs: paired(take, listening) };
}

export function paired(take: TrueTake, { takes }: Listening): readonly Pair[] {
  const all = takes.flatMap(({ notes }) => notes);
  return take.performance.played.map((played) => {
    const own = all.filter(({ event, note }) => event === played.event && note === played.note);
    const off = (each: HeardNote) => Math.abs(each.onset - played.at - played.delay);
    const [nearest] = [...own].sort((a, b) => off(a) - off(b));
    const double = (take.scene.events[played.event]?.notes.length ?? 1) > 1;
    return { take, played, heard: nearest && off(nearest) < SAME ? nearest : undefined, double };
  });
}

export interface Score {
  readonly notes: number;
  /** Shares. */
  readonly aligned: number;
  readonly judged: number;
  readonly right: number;
  readonly named: number;
  readonly brokenNamed: number;
  readonly doubleHarmonicsJudged: number;
  readonly doubleRight: number;
  readonly late: number;
  readonly falselyLate: number;
  /** Median error, cents. */
  readonly centsPlain: number;
  readonly centsVibrato: number;
}

export function scoreOf(pairs: readonly Pair[]): Score {
  const sounding = pairs.filter(({ played }) => played.hz > 0);
  const judged = pairs.filter(isJudged);
  const partial = judged.filter(({ played, heard }) => played.fault === 'partial' && heard?.verdict === 'other');
  const broken = judged.filter(({ played, heard }) => played.fault === 'broken' && heard?.verdict === 'other');
  const doubles = pairs.filter(({ double, played }) => double && played.scene.partial > 1);
  const late = judged.filter(({ played, heard }) => played.fault === 'late' && spoke(heard!.verdict));
  const onTime = judged.filter(({ played, heard }) => played.fault !== 'late' && spoke(heard!.verdict));
  return {
    notes: pairs.length,
    aligned: share(sounding, isAligned),
    judged: share(pairs, isJudged),
    right: share(judged, isRight),
    named: share(partial, isNamed),
    brokenNamed: share(broken, isNamed),
    doubleHarmonicsJudged: share(doubles, isJudged),
    doubleRight: share(doubles.filter(isJudged), isRight),
    late: share(late, ({ heard }) => heard!.verdict === 'late'),
    falselyLate: share(onTime, ({ heard }) => heard!.verdict === 'late'),
    centsPlain: median(pairs.flatMap((pair) => (pair.played.vibrato.depth === 0 ? centsError(pair) : []))),
    centsVibrato: median(pairs.flatMap((pair) => (pair.played.vibrato.depth > 0 ? centsError(pair) : []))),
  };
}

export function isJudged({ heard }: Pair): boolean {
  return heard !== undefined && heard.verdict !== 'not-judged';
}

export function isAligned({ played, heard }: Pair): boolean {
  return heard !== undefined && Math.abs(heard.onset - played.at - played.delay) <= 0.05;
}

/** Spoke or not, as it was. */
export function isRight({ played, heard }: Pair): boolean {
  return spoke(heard!.verdict) === (played.fault === 'none' || played.fault === 'late' || played.fault === 'off');
}

/** What sounded instead, within a quarter tone and by its partial. */
function isNamed({ take, played, heard }: Pair): boolean {
  const hz = (heard?.instead?.hz ?? 1) * 2 ** (take.performance.tuning / 1200);
  return Math.abs(1200 * Math.log2(hz / played.hz)) < 50;
}

export function centsError({ played, heard }: Pair): readonly number[] {
  if (!heard?.intonation || !spoke(heard.verdict) || !(played.fault === 'none' || played.fault === 'off')) return [];
  return [Math.abs(heard.intonation.cents - played.cents)];
}

function spoke(verdict: HeardNote['verdict']): boolean {
  return verdict === 'spoke' || verdict === 'late';
}

function share<T>(some: readonly T[], is: (one: T) => boolean): number {
  return some.length === 0 ? Number.NaN : some.filter(is).length / some.length;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}
