import { BOUNDS } from '../music/choice';
import type { Tempo } from '../music/meter';
import { exactly } from '../music/time';
import { ceiling, cleanAt } from '../solver/ceiling';
import type { Solution } from '../solver/solution';
import type { ExerciseBar } from './exercise';
import type { Source } from './source';

/** Of drills that have no rhythm of their own. */
export const DRILL_TEMPO: Tempo = { beat: exactly(1, 4), bpm: 60 };

/** So many times the tempo, in whole beats a minute where there is a choice. */
export function scaled({ beat, bpm }: Tempo, times: number): Tempo {
  const { least, most } = BOUNDS.bpm;
  return { beat, bpm: times === 1 ? bpm : Math.min(most, Math.max(least, Math.round(bpm * times))) };
}

export function atTempo<B extends ExerciseBar>(bars: readonly B[], times: number): readonly B[] {
  return bars.map((bar) => ({ ...bar, tempo: scaled(bar.tempo, times) }));
}

/** Slow enough that the tempo is to blame for nothing. */
const CRAWL = 1 / 8;

/**
 * The fastest tempo worth working up to: the written one, or a slower one that keeps the chance of a clean run. Where even
 * slow playing hasn't that chance, the tempo may take as large a share of what slow playing has.
 */
export function goalTempo(solution: Solution, chance: number): Tempo | undefined {
  const first = solution.passage.events[0]?.tempo;
  const slow = cleanAt(solution)(CRAWL);
  const fastest = ceiling(solution, slow < chance ? slow * chance : chance);
  if (!first || !fastest) return undefined;
  return fastest.bpm < first.bpm ? fastest : first;
}

/** The same for bars of a passage by themselves, as a share of their written tempo; undefined where no tempo is. */
export function safeTimes(source: Source, bars: readonly ExerciseBar[]): number | undefined {
  const solution = source.rehearse({ title: 'tempo', sections: [{ instructions: [], bars }], rests: false });
  const written = solution?.passage.events[0]?.tempo;
  const safe = solution && goalTempo(solution, source.chance);
  return written && safe && safe.bpm / written.bpm;
}
