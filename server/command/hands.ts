import { PAIN } from '../scene/words';
import { ceiling } from '../solver/ceiling';
import type { Solution } from '../solver/solution';
import { CannotRun, EXIT } from './cannot-run';
import { fileName } from './examine';
import { findInputs, readInput } from './inputs';
import { tempoReport } from './json';
import { handFrom, type Player } from './options';
import { playerAt } from './player-files';
import type { TempoReport } from './report';
import { study } from './study';

/** With `--format json`: one object; absent members are left out. */
export interface HandsReport {
  /** As asked for. */
  readonly hands?: readonly string[];
  /** Paths of player files, as asked for, instead of hands. */
  readonly players?: readonly string[];
  readonly passages: readonly {
    readonly file?: string;
    readonly title: string;
    /** One for each hand or player, in their order. */
    readonly verdicts: readonly Verdict[];
  }[];
}

export interface Verdict {
  /** Chance of a clean run at the written tempo. */
  readonly clean: number;
  /** The fastest tempo that keeps the chance asked for; absent where there is none. */
  readonly ceiling?: TempoReport;
  /** The first bar that this hand can't play. */
  readonly stuckInBar?: number;
}

/** `passagework check --hands small,medium,large`: who can play what, and at which tempo. */
export async function handsTable(
  words: readonly string[],
  list: string,
  player: Player,
  format: 'text' | 'json',
): Promise<number> {
  const hands = listed(list);
  if (hands.length === 0) throw new CannotRun('--hands: name the hands, as in small,medium,large.');
  hands.forEach(handFrom);
  const each = hands.map((hand): Player => ({ ...player, hand }));
  return show(await findInputs(words), each, { hands }, hands, format);
}

/** `passagework check --players ines.player,mattis.player`: the same for players with files of their own. */
export async function playersTable(
  words: readonly string[],
  list: string,
  player: Player,
  format: 'text' | 'json',
): Promise<number> {
  const players = listed(list);
  if (players.length === 0) throw new CannotRun('--players: name the player files, as in ines.player,mattis.player.');
  const names = players.map((path) => playerAt(path, '--players').name);
  const each = players.map((path): Player => ({ ...player, player: path }));
  return show(await findInputs(words), each, { players }, names, format);
}

function listed(list: string): readonly string[] {
  return list
    .split(',')
    .map((name) => name.trim())
    .filter(Boolean);
}

function show(
  files: readonly string[],
  each: readonly Player[],
  asked: Pick<HandsReport, 'hands' | 'players'>,
  headings: readonly string[],
  format: 'text' | 'json',
): number {
  const passages = files.flatMap((name) => passagesOf(name, each));
  if (format === 'json') console.log(JSON.stringify({ ...asked, passages } satisfies HandsReport, null, 2));
  else {
    console.log(drawn(headings, passages));
    const chance = `a chance of ${(each[0] as Player).chance * 100} % of a clean run`;
    console.log(`\nThe fastest tempo that leaves ${chance}. ${PAIN}`);
  }
  return EXIT.clean;
}

function passagesOf(name: string, each: readonly Player[]): HandsReport['passages'] {
  const text = readInput(name);
  const file = fileName(name);
  const solved = each.map((player) => study(text, player, name).solutions);
  return (solved[0] ?? []).map(({ passage }, index) => ({
    ...(file !== undefined && { file }),
    title: passage.title,
    verdicts: solved.map((solutions) => verdict(solutions[index]!, (each[0] as Player).chance)),
  }));
}

function verdict(solution: Solution, chance: number): Verdict {
  const stuck = solution.deadlocks[0] && solution.passage.events[solution.deadlocks[0].event];
  const fastest = ceiling(solution, chance);
  return {
    clean: solution.clean,
    ...(fastest && { ceiling: tempoReport(fastest) }),
    ...(stuck && { stuckInBar: stuck.bar }),
  };
}

function drawn(headings: readonly string[], passages: HandsReport['passages']): string {
  const rows = passages.map(({ file, title, verdicts }) => [
    [file ?? 'standard input', title].filter(Boolean).join(': '),
    ...verdicts.map(verdictWords),
  ]);
  const cells = [['passage', ...headings], ...rows];
  const widths = cells[0]!.map((_, column) => Math.max(...cells.map((row) => row[column]!.length)));
  const line = (row: readonly string[]) => row.map((cell, column) => cell.padEnd(widths[column]!)).join('  ');
  return cells.map((row) => line(row).trimEnd()).join('\n');
}

function verdictWords({ ceiling: fastest, stuckInBar }: Verdict): string {
  if (stuckInBar !== undefined) return `no: bar ${stuckInBar}`;
  return fastest ? `${fastest.beat} = ${fastest.bpm}` : 'at no tempo';
}
