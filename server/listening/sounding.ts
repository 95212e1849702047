import { cents as interval } from '../music/temperament';
import type { Candidate, ExpectedNote } from './expected';
import type { Frames } from './frames';
import { centsAbove, isPartial, matchOff, WIDE } from './match';

/** What one frame says of a note. */
export interface FrameVote {
  readonly frame: number;
  /** What sounds for it; undefined where two things fit alike, or nothing does, or nothing is played. */
  readonly candidate?: Candidate;
  /** How well that fits, 0 to 1, and how much better than the next best. */
  readonly fit: number;
  readonly margin: number;
  /** Cents above the candidate. */
  readonly cents?: number;
  readonly silent: boolean;
}

/** Fits below this are nobody's. */
const LEAST_FIT = 0.42;
/** The best must beat the next by this. */
const LEAST_MARGIN = 0.06;
/** Where a known candidate fits so well, other notes need not be tried. */
const GOOD = 0.6;
/** What being as far off as a note may be costs. */
const OFF = 0.2;
/** Of two notes: what it takes to believe that one became another pitch, or was not heard. */
const UNWRITTEN = 0.12;
const UNHEARD = 0.1;
/** Semitones on either side that are tried where nothing known fits. */
const OTHERS = 12;

/** What each frame of a stretch says of each note of an event: one vote for every note and frame. */
export function votesOf(
  frames: Frames,
  silent: Uint8Array,
  notes: readonly ExpectedNote[],
  tuning: number,
  from: number,
  to: number,
): readonly (readonly FrameVote[])[] {
  const tuned = 2 ** (tuning / 1200);
  const votes: FrameVote[][] = notes.map(() => []);
  const known = notes.map(({ candidates }) => candidates);
  for (let frame = Math.max(0, from); frame < Math.min(frames.count, to); frame++) {
    if (silent[frame]) {
      for (const own of votes) own.push({ frame, fit: 0, margin: 0, silent: true });
      continue;
    }
    const heard = notes.length === 1 ? oneNote(frames, frame, known[0] ?? [], tuned) : twoNotes(frames, frame, known, tuned);
    for (const [i, fits] of heard.entries()) votes[i]?.push(vote(frames, frame, fits, tuned, heard, i));
  }
  return votes;
}

interface Fit {
  readonly candidate?: Candidate;
  readonly fit: number;
}

function oneNote(frames: Frames, frame: number, candidates: readonly Candidate[], tuned: number): readonly (readonly Fit[])[] {
  const fits = candidates.map((candidate) => ({ candidate, fit: fitOf(frames, frame, [candidate.hz * tuned]) }));
  const written = candidates[0];
  if (!written || fits.some(({ fit }) => fit >= GOOD)) return [fits];
  for (let semitones = -OTHERS; semitones <= OTHERS; semitones++) {
    const hz = written.hz * 2 ** (semitones / 12);
    if (candidates.some((each) => Math.abs(interval(each.hz / hz)) < WIDE - 5)) continue;
    fits.push({ candidate: { source: 'other', hz }, fit: fitOf(frames, frame, [hz * tuned]) });
  }
  return [fits];
}

/** Of two notes together each pair is tried, and each note alone; what a candidate is worth is the best that it is part of. */
function twoNotes(
  frames: Frames,
  frame: number,
  [upper = [], lower = []]: readonly (readonly Candidate[])[],
  tuned: number,
): readonly (readonly Fit[])[] {
  const best: [Map<Candidate | undefined, number>, Map<Candidate | undefined, number>] = [new Map(), new Map()];
  const tell = (fit: number, one: Candidate | undefined, other: Candidate | undefined) => {
    best[0].set(one, Math.max(fit, best[0].get(one) ?? 0));
    best[1].set(other, Math.max(fit, best[1].get(other) ?? 0));
  };
  const place = (candidate: Candidate) => centsAbove(frames, frame, candidate.hz * tuned);
  const ones = upper.map((candidate) => ({ candidate, cents: place(candidate) })).filter(({ cents }) => cents !== undefined);
  const others = lower.map((candidate) => ({ candidate, cents: place(candidate) })).filter(({ cents }) => cents !== undefined);
  const fitting = (...some: readonly Placed[]) =>
    matchOff(
      frames,
      frame,
      some.map(({ candidate }) => candidate.hz * tuned),
      some.map(({ cents }) => cents ?? 0),
      OFF,
    ) - some.reduce((sum, { candidate }) => sum + (candidate.source === 'written' ? 0 : UNWRITTEN), 0);
  // A written note that is a partial of the other can't be told from silence.
  const unheard = (sounding: Placed, missing: Candidate | undefined) =>
    missing && isPartial(missing.hz, sounding.candidate.hz, WIDE) ? 0 : UNHEARD;
  for (const one of ones) {
    tell(fitting(one) - unheard(one, lower[0]), one.candidate, undefined);
    for (const other of others) {
      if (Math.abs(interval(one.candidate.hz / other.candidate.hz)) > WIDE)
        tell(fitting(one, other), one.candidate, other.candidate);
    }
  }
  for (const other of others) tell(fitting(other) - unheard(other, upper[0]), undefined, other.candidate);
  return best.map((all) => [...all].map(([candidate, value]) => ({ ...(candidate && { candidate }), fit: value })));
}

interface Placed {
  readonly candidate: Candidate;
  readonly cents: number | undefined;
}

function fitOf(frames: Frames, frame: number, hz: readonly number[]): number {
  const cents = hz.map((each) => centsAbove(frames, frame, each));
  if (cents.some((each) => each === undefined)) return 0;
  return matchOff(frames, frame, hz, cents as number[], OFF);
}

function vote(
  frames: Frames,
  frame: number,
  fits: readonly Fit[],
  tuned: number,
  all: readonly (readonly Fit[])[],
  index: number,
): FrameVote {
  const best = bestOf(fits);
  if (!best || best.fit < LEAST_FIT) return { frame, fit: best?.fit ?? 0, margin: 0, silent: false };
  // That it is not the written note may be clear where it is not clear what it is.
  const isWritten = best.candidate?.source === 'written';
  const against = fits.filter((each) => (each.candidate?.source === 'written') !== isWritten);
  const margin = best.fit - (bestOf(against)?.fit ?? 0);
  if (margin < LEAST_MARGIN) return { frame, fit: best.fit, margin, silent: false };
  const alike = isWritten
    ? [best]
    : fits.filter((each) => each.fit > best.fit - LEAST_MARGIN && each.candidate?.source !== 'written');
  const found = alike.find(({ candidate }) => candidate === undefined) ?? best;
  if (!found.candidate) return { frame, fit: found.fit, margin, silent: true };
  const beside = all.length > 1 ? bestOf(all[1 - index] ?? [])?.candidate : undefined;
  const hz = found.candidate.hz * tuned;
  const cents = centsAbove(frames, frame, hz, beside && beside.hz * tuned) ?? centsAbove(frames, frame, hz);
  return { frame, candidate: found.candidate, fit: found.fit, margin, silent: false, ...(cents !== undefined && { cents }) };
}

function bestOf(fits: readonly Fit[]): Fit | undefined {
  return fits.reduce<Fit | undefined>((most, each) => (most && most.fit >= each.fit ? most : each), undefined);
}
