import { KINDS } from '../../server/practice/kinds';
import { practice } from '../../server/practice/practice';
import type { Snapshot } from '../../server/workspace/snapshot';
import { reading } from '../support/reading';

/** Exercises made of a text, as a file and as read again the way an editor would. */
export interface Made {
  readonly text: string;
  readonly counts: Readonly<Record<string, number>>;
  readonly source: Snapshot;
  readonly again: Snapshot;
}

export function made(text: string, kinds: readonly string[] = KINDS.map(({ name }) => name), chance = 0.8): Made {
  const source = reading(text);
  const { resolved, solver } = source;
  const solutions = source.solutions.filter(({ passage }) => passage.events.length > 0);
  const chosen = KINDS.filter(({ name }) => kinds.includes(name));
  const answer = practice({ resolved, solutions, solver, kinds: chosen, chance, overrides: {} });
  const counts = Object.fromEntries(answer.made.map(({ kind, count }) => [kind.name, count]));
  return { text: answer.text, counts, source, again: reading(answer.text) };
}

/** The exercise whose title begins so, as read again. */
export function exercise({ again }: Made, title: string) {
  const solution = again.solutions.find(({ passage }) => passage.title.startsWith(title));
  if (!solution)
    throw new Error(`No exercise «${title}», only ${again.solutions.map(({ passage }) => passage.title).join(', ')}`);
  const told = solution.passage.instructions.map(({ text }) => text);
  return { solution, passage: solution.passage, told };
}

export const LIGHTHOUSE = `instrument: violin
passage: Lighthouse study
tempo: 1/4 = 72
meter: 4/4
1/4 D6o E6o F#6o G6o |
A6o B6o C#7o D7o |
1/8 D5 F#5 A5 D6o slur(1/16 E6o F#6o G6o A6o) 1/4 D7o |
1/4 E5<>A5 [II 1-4] G5 1/2 D6o ||
`;
