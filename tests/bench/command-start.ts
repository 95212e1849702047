import { leastByTurns } from '../support/least-work';
import { type Figure, ms } from './figure';
import { processorTime } from './processor';

/** Passages of one line, the second as the README has it; starts of Node that do nothing which a check of them may take. */
const LINES = [
  { what: 'three notes (wanted: 2)', text: 'D6o F#6o A6o\n', most: 2.5 },
  { what: 'the README’s line (wanted: 2.5)', text: 'harmonics: all\n1/4 D6 E6 F#6 G6 A6 B6 C#7 D7\n', most: 3.2 },
];

const ROUNDS = 12;

export function commandStart(): readonly Figure[] {
  return LINES.map(({ what, text, most }) => {
    const [node, command] = leastByTurns(ROUNDS, [
      () => processorTime(['-e', '0']),
      () => processorTime(['dist/command.cjs', 'check', '-'], text),
    ]) as [number, number];
    return {
      what: `cold start: passagework check of ${what}, against bare Node`,
      ratio: command / node,
      goal: { most },
      measured: `${ms(command)} against ${ms(node)}`,
    };
  });
}
