import type { PitchCurve } from '../protocol/heard';
import type { Take } from './align';
import { intonationOf } from './curve';
import type { Candidate, ExpectedEvent, ExpectedNote } from './expected';
import type { Frames } from './frames';
import { Grid } from './grid';
import { type Onset, onsetOf } from './onset';
import { type FrameVote, votesOf } from './sounding';
import type { HeardNote } from './verdict';

/** Share of a note's sounding frames that agree on what it is. */
const AGREE = 0.6;
/** Share of its frames in which a note not heard may sound, and from which on it was heard. */
const NOT_HEARD = 0.25;
const HEARD = 0.45;
/** Frames at either end that the window smears, left out of long notes. */
const EDGE = 4;
const LONG = 14;
/** Fewer frames than this say nothing. */
const FEWEST = 4;
/** Seconds after which a note spoke late: longer than a bow takes to start a string (common practice, no source). */
const LATE = 0.07;
/** Seconds that nothing else sounds before a note that spoke late. */
const WAITS = 0.03;
/** Frames by which a note whose beginning only the attack tells may lie beside the one it is played with, and yet begin with it. */
const TOGETHER = 6;

interface Judged {
  readonly segment: Take[number];
  readonly event: ExpectedEvent;
  readonly note: ExpectedNote;
  readonly votes: readonly FrameVote[];
  readonly main: Main;
  readonly onset: number;
}

interface Main {
  readonly candidate?: Candidate;
  readonly kind: 'sounds' | 'not-heard' | 'not-judged';
  readonly sure: number;
}

/** What became of every note of a take. `last` where the player broke off: its last note can't be judged. */
export function judgeTake(
  frames: Frames,
  silent: Uint8Array,
  begins: Float32Array,
  expected: readonly ExpectedEvent[],
  take: Take,
  tuning: number,
  brokenOff: boolean,
): readonly HeardNote[] {
  const tuned = 2 ** (tuning / 1200);
  let before: readonly number[] = [];
  const judged = take.flatMap((segment) => {
    const event = expected[segment.index] as ExpectedEvent;
    if (event.notes.length === 0) {
      before = [];
      return [];
    }
    const votes =
      event.notes.length > 2
        ? event.notes.map(() => [])
        : votesOf(frames, silent, event.notes, tuning, segment.from - EDGE, segment.to);
    const mains = votes.map((own) => mainOf(own, segment.from, segment.to));
    const sounding = mains.map(({ candidate }) => candidate && candidate.hz * tuned);
    const onsets = mains.map(({ kind, candidate }, i) =>
      onsetOf(
        frames,
        begins,
        votes[i] ?? [],
        kind === 'sounds' ? candidate : undefined,
        segment.from,
        tuned,
        before,
        sounding.flatMap((hz, j) => (j !== i && hz !== undefined ? [hz] : [])),
      ),
    );
    // What can't be told may have sounded as written; what was not heard did not.
    before = event.notes.flatMap(({ scene }, i) => {
      const { kind } = mains[i] ?? { kind: 'not-judged' };
      return kind === 'not-heard' ? [] : [(kind === 'sounds' ? sounding[i] : undefined) ?? scene.hz * tuned];
    });
    // Notes played together begin together, unless they tell otherwise.
    const together = onsets.find(({ own }) => own)?.frame;
    const begun = ({ own, frame }: Onset, { kind }: Main) =>
      !own && together !== undefined && (kind !== 'sounds' || Math.abs(together - frame) <= TOGETHER) ? together : frame;
    return event.notes.flatMap((note, i): readonly Judged[] => {
      const [main, onset] = [mains[i], onsets[i]];
      if (note.scene.held || !main || !onset) return [];
      return [{ segment, event, note, votes: votes[i] ?? [], main, onset: begun(onset, main) }];
    });
  });
  const grid = new Grid(
    frames.hop,
    expected,
    judged.filter(({ main }) => main.kind === 'sounds').map(({ segment, onset }) => ({ index: segment.index, frame: onset })),
  );
  const last = take.at(-1);
  const notes = judged.map((each) => heard(each, frames, grid, soundedBefore(judged, each), brokenOff && each.segment === last));
  return [...notes, ...leftOut(silent, expected, take, grid, frames.hop)].sort((a, b) => a.onset - b.onset);
}

/** The frame up to which the notes before one sounded; its own first where none did. */
function soundedBefore(judged: readonly Judged[], { segment }: Judged): number {
  const before = judged.findLast((each) => each.segment.index < segment.index && each.votes.some(({ candidate }) => candidate));
  const last = before?.votes.findLast(({ candidate }) => candidate);
  return last ? last.frame + 1 : segment.from;
}

/** Notes that the take went past: not heard where it is silent at their time; else nobody knows. */
function leftOut(
  silent: Uint8Array,
  expected: readonly ExpectedEvent[],
  take: Take,
  grid: Grid,
  hop: number,
): readonly HeardNote[] {
  const played = new Set(take.map(({ index }) => index));
  const missing = expected.flatMap((_, index) =>
    index > (take[0]?.index ?? 0) && index < (take.at(-1)?.index ?? 0) && !played.has(index) ? [index] : [],
  );
  return missing.flatMap((index) => {
    const { event, notes, seconds } = expected[index] as ExpectedEvent;
    const from = Math.max(0, Math.round(grid.at(index) ?? take.find((each) => each.index > index)?.from ?? 0));
    const at = silent.subarray(from + EDGE, from + Math.max(2 * EDGE, Math.round((0.7 * seconds) / hop)));
    const quiet = at.reduce((sum, each) => sum + each, 0) / Math.max(1, at.length);
    return notes.map(
      ({ note }): HeardNote => ({
        event,
        note,
        verdict: quiet > 1 - NOT_HEARD ? 'not-heard' : 'not-judged',
        onset: from * hop,
        end: from * hop + seconds,
        curve: { seconds: [], cents: [] },
        sure: quiet > 1 - NOT_HEARD ? quiet : 0,
      }),
    );
  });
}

function heard(
  { segment, event, note, votes, main, onset }: Judged,
  frames: Frames,
  grid: Grid,
  soundedUntil: number,
  cutOff: boolean,
): HeardNote {
  const curve = curveOf(votes, main.candidate, segment.from, segment.to, frames.hop);
  const intonation = intonationOf(curve);
  const written = main.candidate === note.candidates[0];
  const late = written ? lateness(onset, soundedUntil, grid.at(segment.index), frames.hop) : 0;
  const spoke = main.kind === 'sounds' && written;
  // Whoever breaks off a note may be the reason why it did not speak.
  const verdict =
    main.kind === 'not-judged' || (cutOff && !spoke)
      ? 'not-judged'
      : main.kind === 'not-heard'
        ? 'not-heard'
        : !written
          ? 'other'
          : late > LATE
            ? 'late'
            : 'spoke';
  return {
    event: event.event,
    note: note.note,
    verdict,
    ...(verdict === 'other' && main.candidate && { instead: main.candidate }),
    onset: onset * frames.hop,
    end: segment.to * frames.hop,
    ...(verdict === 'late' && { late: Math.round(late * 1000) }),
    ...(intonation && main.candidate && { intonation }),
    curve,
    sure: verdict === 'not-judged' ? 0 : main.sure,
  };
}

/** What a note is by most of its frames. */
function mainOf(votes: readonly FrameVote[], from: number, to: number): Main {
  const edge = to - from >= LONG ? EDGE : 1;
  const core = votes.filter(({ frame }) => frame >= from + edge && frame < to - edge);
  if (core.length < FEWEST) return { kind: 'not-judged', sure: 0 };
  const sounding = core.filter(({ silent }) => !silent);
  const share = sounding.length / core.length;
  if (share < NOT_HEARD) return { kind: 'not-heard', sure: 1 - share };
  const tallies = new Map<Candidate, { count: number; fit: number }>();
  for (const { candidate, fit } of sounding) {
    if (!candidate) continue;
    const known = [...tallies.keys()].find((each) => each.hz === candidate.hz) ?? candidate;
    const tally = tallies.get(known) ?? { count: 0, fit: 0 };
    tallies.set(known, { count: tally.count + 1, fit: tally.fit + fit });
  }
  const [top] = [...tallies].sort(([, a], [, b]) => b.count - a.count);
  const tail = tailOf(core);
  if (top && share >= HEARD && top[1].count / sounding.length >= AGREE)
    return sounds(top[0], top[1].count / sounding.length, top[1].fit / top[1].count);
  // A note that spoke late has its pitch at the end.
  if (tail) return sounds(tail, 0.8, 0.7);
  return { kind: 'not-judged', ...(top && { candidate: top[0] }), sure: 0 };
}

function sounds(candidate: Candidate, agree: number, fit: number): Main {
  return { kind: 'sounds', candidate, sure: Math.min(1, agree) * Math.min(1, fit / 0.75) };
}

/** Shares of a note's frames at its end that all say one thing, for it to have spoken at last. */
const TAIL = 0.35;
const TAIL_AGREES = 0.85;

function tailOf(core: readonly FrameVote[]): Candidate | undefined {
  const tail = core.slice(Math.floor(core.length * (1 - TAIL)));
  const candidate = tail.at(-1)?.candidate;
  if (candidate?.source !== 'written' || tail.length < FEWEST) return undefined;
  return tail.filter((vote) => vote.candidate === candidate).length >= TAIL_AGREES * tail.length ? candidate : undefined;
}

/** Seconds by which a note spoke after its time, as the notes around it tell the time; 0 where the notes before it lasted until then. */
function lateness(onset: number, soundedUntil: number, due: number | undefined, hop: number): number {
  const waited = Math.max(0, onset - soundedUntil) * hop;
  return due === undefined ? waited : waited < WAITS ? 0 : (onset - due) * hop;
}

function curveOf(
  votes: readonly FrameVote[],
  candidate: Candidate | undefined,
  from: number,
  to: number,
  hop: number,
): PitchCurve {
  const own = votes.filter((vote) => candidate && vote.candidate?.hz === candidate.hz && vote.cents !== undefined);
  const edge = to - from >= LONG ? EDGE : 2;
  const core = own.filter(({ frame }) => frame >= (own[0]?.frame ?? 0) + edge && frame < to - edge);
  const used = core.length >= 3 ? core : own;
  return { seconds: used.map(({ frame }) => frame * hop), cents: used.map(({ cents = 0 }) => cents) };
}
