import { often, PAIN } from '../scene/words';
import { ceiling } from '../solver/ceiling';
import type { Solution } from '../solver/solution';
import { type AnswerOptions, answerTo, checkAnswer } from './answer';
import { CannotRun, EXIT } from './cannot-run';
import { findInputs, readInput, reportedName } from './inputs';
import { tempoReport } from './json';
import { jsonText } from './json-text';
import { handFrom, type Player } from './options';
import { everythingRead } from './output';
import { playerAt } from './player-files';
import type { TempoReport } from './report';
import { settingsOf, study } from './study';
import { visible, visibleWithin } from './visible';

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

/** `passagework check --hands small,medium,large`: who can play what, and at which tempo; `--players` the same for players with files of their own. */
export async function handsTable(
  words: readonly string[],
  options: AnswerOptions & { readonly hands?: string; readonly players?: string },
  player: Player,
  format: 'text' | 'json',
): Promise<number> {
  if (options.hands !== undefined && options.players !== undefined)
    throw new CannotRun('--hands and --players are two tables: ask for one at a time.');
  const hands = listed(options.hands ?? '');
  const players = listed(options.players ?? '');
  if (options.players === undefined) {
    if (hands.length === 0) throw new CannotRun('--hands: name the hands, as in small,medium,large.');
    hands.forEach(handFrom);
  } else if (players.length === 0) throw new CannotRun('--players: name the player files, as in ines.player,mattis.player.');
  const headings = options.players === undefined ? hands : players.map((path) => playerAt(path, '--players').name);
  const each: readonly Player[] =
    options.players === undefined
      ? hands.map((hand) => ({ ...player, hand }))
      : players.map((path) => ({ ...player, player: path }));
  const files = await findInputs(words);
  checkAnswer(options, everythingRead(files, ...players));
  const passages = files.flatMap((name) => passagesOf(name, each));
  const asked = options.players === undefined ? { hands } : { players };
  if (format === 'json') answerTo(options, jsonText({ ...asked, passages } satisfies HandsReport));
  else {
    const chances = new Set(files.map((name) => often(settingsOf(player, name).safeChance)));
    const told = `clean ${[...chances].join(' or ')}`;
    answerTo(options, `${drawn(headings.map(visible), visibleWithin(passages))}\n\nThe fastest tempo that is ${told}. ${PAIN}`);
  }
  return EXIT.clean;
}

function listed(list: string): readonly string[] {
  return list
    .split(',')
    .map((name) => name.trim())
    .filter(Boolean);
}

function passagesOf(name: string, each: readonly Player[]): HandsReport['passages'] {
  const text = readInput(name);
  const file = reportedName(name);
  const solved = each.map((player) => study(text, player, name));
  return (solved[0]?.solutions ?? []).map(({ passage }, index) => ({
    ...(file !== undefined && { file }),
    title: passage.title,
    verdicts: solved.map(({ solutions, settings }) => verdict(solutions[index]!, settings.safeChance)),
  }));
}

function verdict(solution: Solution, chance: number): Verdict {
  const stuck = solution.unplayables[0] && solution.passage.events[solution.unplayables[0].event];
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
