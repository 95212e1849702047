import { later } from '../../l10n/translate';
import type { HeardMark, HeardRun, Verdict } from '../../protocol/heard';
import type { Role } from '../look';

export interface VerdictLook {
  /** Told apart by shape, and by word; colour only helps. */
  readonly mark: string;
  readonly word: string;
  /** The word where there is little room. */
  readonly brief: string;
  readonly role: Role;
}

/** From what matters most to a player to what matters least. */
export const VERDICTS: Readonly<Record<Verdict, VerdictLook>> = {
  other: { mark: '✕', word: later('another pitch'), brief: later('other'), role: 'stop' },
  'not-heard': { mark: '○', word: later('not heard'), brief: later('silent'), role: 'stop' },
  late: { mark: '›', word: later('late'), brief: later('late'), role: 'warn' },
  'not-judged': { mark: '?', word: later('not judged'), brief: later('unsure'), role: 'faint' },
  spoke: { mark: '✓', word: later('spoke'), brief: later('spoke'), role: 'touch' },
};

const ORDER = Object.keys(VERDICTS) as readonly Verdict[];

/** Of an event that was played more than once, or of several notes, the verdict that matters most. */
export function gravest(marks: readonly HeardMark[]): HeardMark | undefined {
  return marks.reduce<HeardMark | undefined>(
    (most, mark) => (most && ORDER.indexOf(most.verdict) <= ORDER.indexOf(mark.verdict) ? most : mark),
    undefined,
  );
}

/** The run that is shown first: the last whole one, or the longest part. */
export function runToShow(runs: readonly HeardRun[]): number {
  const whole = runs.findLastIndex((run) => run.whole);
  if (whole >= 0) return whole;
  const most = Math.max(...runs.map(({ marks }) => marks.length));
  return Math.max(
    0,
    runs.findIndex(({ marks }) => marks.length === most),
  );
}
