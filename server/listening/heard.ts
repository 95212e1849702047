import { triedWords } from '../player/attempt-words';
import type { Heard, HeardCount } from '../protocol/heard';
import type { ScenePassage } from '../protocol/scene';
import type { Solution } from '../solver/solution';
import { adviceOf } from './advice';
import { attemptsIn } from './attempts';
import type { Listening } from './listen';
import { summaryOf, verdictWords } from './summary';

/** What a recording holds, as it is shown. */
export function heardIn(listening: Listening, solution: Solution, passage: ScenePassage): Heard {
  return {
    summary: [...summaryOf(listening, passage), ...adviceOf(listening.takes, solution, passage)],
    runs: listening.takes.map(({ from, to, whole, notes }) => ({
      from: rounded(from, 100),
      to: rounded(to, 100),
      whole,
      marks: notes.map((heard) => ({
        event: heard.event,
        note: heard.note,
        verdict: heard.verdict,
        words: verdictWords(heard),
        onset: rounded(heard.onset, 100),
        end: rounded(heard.end, 100),
        curve: {
          seconds: heard.curve.seconds.map((value) => rounded(value, 100)),
          cents: heard.curve.cents.map((value) => rounded(value, 10)),
        },
      })),
    })),
  };
}

/** What it would add to a player file. */
export function countsIn({ takes }: Listening, passage: ScenePassage, inTune: number): readonly HeardCount[] {
  return attemptsIn(takes, passage, inTune).map(({ tried, attempts }) => ({ attempt: triedWords(tried), ...attempts }));
}

function rounded(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
