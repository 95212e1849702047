import type { TouchInterval } from '../../grammar/tree';
import type { Attempts } from '../hand/attempts';
import type { StringName } from '../instrument/instrument';
import { type Tried, triedWords } from '../player/attempt-words';
import type { SceneNote, ScenePassage } from '../protocol/scene';
import type { HeardNote, HeardTake } from './verdict';

/** One way of sounding notes, and how often a recording is sure that it came out clean or did not. */
export interface HeardAttempts {
  readonly tried: Tried;
  readonly attempts: Attempts;
}

/** As sure as a note must be to count. */
export const SURE = 0.7;

/**
 * What a recording adds to a player file: of every string, form and node how often it was tried, and came out clean. A harmonic is clean
 * when it spoke in time, a stopped note when it was in tune besides; open strings are not tried, and what is unsure does not count.
 *
 * @param inTune cents either side within which a stopped note passes
 */
export function attemptsIn(takes: readonly HeardTake[], { events }: ScenePassage, inTune: number): readonly HeardAttempts[] {
  const counts = new Map<string, HeardAttempts>();
  for (const heard of takes.flatMap(({ notes }) => notes)) {
    const scene = events[heard.event]?.notes[heard.note];
    const tried = scene && triedOf(scene);
    if (!tried || heard.verdict === 'not-judged' || heard.sure < SURE) continue;
    const words = triedWords(tried);
    const { clean, tried: all } = counts.get(words)?.attempts ?? { clean: 0, tried: 0 };
    counts.set(words, { tried, attempts: { clean: clean + (isClean(heard, tried, inTune) ? 1 : 0), tried: all + 1 } });
  }
  return [...counts.values()];
}

function isClean({ verdict, intonation }: HeardNote, { kind }: Tried, inTune: number): boolean {
  return verdict === 'spoke' && (kind !== 'stopped' || Math.abs(intonation?.cents ?? 0) <= inTune);
}

function triedOf({ string, kind, interval, touch }: SceneNote): Tried | undefined {
  if (kind === 'open') return undefined;
  const [k, n] = touch?.fraction.split('/').map(Number) ?? [];
  return {
    string: string as StringName,
    kind,
    ...(interval !== undefined && { interval: interval as TouchInterval }),
    ...(k !== undefined && n !== undefined && { node: { k, n } }),
  };
}
