import { spawnSync } from 'node:child_process';
import { type Figure, ms, quickest } from './figure';

/** A start of the command against a start of Node that does nothing; wanted is 2. */
const GOAL = 3;

export function commandStart(): readonly Figure[] {
  const run = (words: readonly string[]) => {
    const { status, stderr } = spawnSync(process.execPath, words, { input: 'D6o F#6o A6o\n', encoding: 'utf8' });
    if (status !== 0) throw new Error(stderr);
  };
  // By turns, so that a busy moment of the machine falls on both.
  let [node, command] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let round = 0; round < 10; round++) {
    node = Math.min(
      node,
      quickest(1, () => run(['-e', '0'])),
    );
    command = Math.min(
      command,
      quickest(1, () => run(['dist/command.cjs', 'check', '-'])),
    );
  }
  return [
    {
      what: 'cold start: passagework check of one line, against bare Node',
      ratio: command / node,
      goal: { most: GOAL },
      measured: `${ms(command)} against ${ms(node)}`,
    },
  ];
}
