import { mkdirSync, writeFileSync } from 'node:fs';
import { leastByTurns } from '../support/least-work';
import type { Curve } from './curves';
import { type Figure, ms } from './figure';
import { processorTime } from './processor';
import { variedFile } from './varied-file';

const FOLDER = '.cache/bench';
/** The longest is only solved, once, for how the time grows. */
const [SIZES, LONGEST] = [[100, 1_000, 10_000], 100_000];
const ROUNDS = 3;

/** What the command does, as whole processes, in processor time: what one answer costs against another about the same notes. */
export function wholeCommand(curves: Curve[]): readonly Figure[] {
  mkdirSync(FOLDER, { recursive: true });
  for (const notes of [...SIZES, LONGEST]) writeFileSync(fileOf(notes), variedFile(notes));
  const solving = SIZES.map((notes) => {
    const [check, solve, json] = byTurns(notes, [['check'], ['solve'], ['solve', '--format', 'json']]) as [
      number,
      number,
      number,
    ];
    return { notes, check, solve, json };
  });
  const longest = taken(LONGEST, ['solve']);
  curves.push({
    name: 'passagework solve, processor ms',
    points: [...solving.map(({ notes, solve }): [number, number] => [notes, solve]), [LONGEST, longest]],
  });
  const from = solving.at(-1)!;
  const [one, hundred] = byTurns(1_000, [best(1), best(100)]) as [number, number];
  const [html, pdf] = byTurns(1_000, [sheet('html'), sheet('pdf')]) as [number, number];
  return [
    ...solving.map(({ notes, check, solve }) =>
      against(`solve of ${said(notes)} notes, against check (wanted: 1.2)`, solve, check, 1.35),
    ),
    ...solving.map(({ notes, check, json }) =>
      against(`solve as JSON of ${said(notes)} notes, against check (wanted: 1.2)`, json, check, 1.45),
    ),
    {
      what: `command: power of its notes that solve grows with, from ${said(from.notes)} to ${said(LONGEST)}`,
      ratio: Math.log(longest / from.solve) / Math.log(LONGEST / from.notes),
      goal: { most: 1.05 },
      measured: `${ms(from.solve)} to ${ms(longest)}`,
    },
    against('the 100 best fingerings of 1,000 notes, against the best', hundred, one, 3),
    against('a PDF of 1,000 notes, against their web page (wanted: 2)', pdf, html, 2.4),
  ];
}

function best(count: number): readonly string[] {
  return ['solve', '--format', 'json', '--best', String(count)];
}

function sheet(form: string): readonly string[] {
  return ['sheet', '--force', '--out', `${FOLDER}/sheet.${form}`];
}

function against(what: string, one: number, other: number, most: number): Figure {
  return { what: `command: ${what}`, ratio: one / other, goal: { most }, measured: `${ms(one)} against ${ms(other)}` };
}

function said(notes: number): string {
  return notes.toLocaleString('en');
}

function byTurns(notes: number, commands: readonly (readonly string[])[]): readonly number[] {
  return leastByTurns(
    ROUNDS,
    commands.map((words) => () => taken(notes, words)),
  );
}

function taken(notes: number, words: readonly string[]): number {
  return processorTime(['dist/command.cjs', ...words, fileOf(notes)]);
}

function fileOf(notes: number): string {
  return `${FOLDER}/${notes}.passage`;
}
