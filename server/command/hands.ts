import { ceiling } from '../solver/ceiling';
import type { Solution } from '../solver/solution';
import { CannotRun, EXIT } from './cannot-run';
import { fileName } from './examine';
import { findInputs, readInput } from './inputs';
import { handFrom, type Player } from './options';
import { study } from './study';

/** One passage under several hands: how fast each can play it cleanly enough, or where it can't. */
interface Row {
  readonly passage: string;
  readonly hands: readonly string[];
}

/** `passagework check --hands small,medium,large`: who can play what, and at which tempo. */
export async function handsTable(words: readonly string[], list: string, player: Player): Promise<number> {
  const hands = list
    .split(',')
    .map((name) => name.trim())
    .filter(Boolean);
  if (hands.length === 0) throw new CannotRun('--hands: name the hands, as in small,medium,large.');
  hands.forEach(handFrom);
  const rows = (await findInputs(words)).flatMap((name) => rowsOf(name, hands, player));
  console.log(drawn(hands, rows));
  console.log(
    `\nThe fastest tempo that leaves a chance of ${player.chance * 100} % of a clean run. Pain means stop; ask a teacher or a clinician.`,
  );
  return EXIT.clean;
}

function rowsOf(name: string, hands: readonly string[], player: Player): Row[] {
  const text = readInput(name);
  const solved = hands.map((hand) => study(text, { ...player, hand }).solutions);
  return (solved[0] ?? []).map((first, index) => ({
    passage: [fileName(name) ?? 'standard input', first.passage.title].filter(Boolean).join(': '),
    hands: solved.map((solutions) => verdict(solutions[index]!, player.chance)),
  }));
}

function verdict(solution: Solution, chance: number): string {
  const stuck = solution.deadlocks[0];
  if (stuck) return `no: bar ${solution.passage.events[stuck.event]?.bar}`;
  const fastest = ceiling(solution, chance);
  return fastest ? `${fastest.beat.toFraction()} = ${Math.floor(fastest.bpm)}` : 'at no tempo';
}

function drawn(hands: readonly string[], rows: readonly Row[]): string {
  const cells = [['passage', ...hands], ...rows.map((row) => [row.passage, ...row.hands])];
  const widths = cells[0]!.map((_, column) => Math.max(...cells.map((row) => row[column]!.length)));
  return cells
    .map((row) =>
      row
        .map((cell, column) => cell.padEnd(widths[column]!))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
