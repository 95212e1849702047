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
    // By turns, so that a busy moment of the machine falls on both.
    let [node, command] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (let round = 0; round < ROUNDS; round++) {
      node = Math.min(node, processorTime(['-e', '0']));
      command = Math.min(command, processorTime(['dist/command.cjs', 'check', '-'], text));
    }
    return {
      what: `cold start: passagework check of ${what}, against bare Node`,
      ratio: command / node,
      goal: { most },
      measured: `${ms(command)} against ${ms(node)}`,
    };
  });
}
