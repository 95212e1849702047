import { resolve } from 'node:path';
import { CannotRun, EXIT } from './cannot-run';
import { fileName } from './examine';
import { findInputs, readInput } from './inputs';
import { reportOf } from './json';
import { listing, tally } from './listing';
import { failsOn, formatFrom, type PlayerOptions, playerFrom } from './options';
import { checkOutput, makeFolder, writeOutput } from './output';
import { paintFor } from './paint';
import type { Report } from './report';
import { study } from './study';
import { solutionTable } from './table';

export interface SolveOptions extends PlayerOptions {
  readonly format: string;
  readonly best?: string | number;
  readonly page?: string;
}

/** `passagework solve`: a fingering for every passage, as a table or as JSON, and as a page where asked. */
export async function solve(words: readonly string[], options: SolveOptions): Promise<number> {
  const format = formatFrom(options.format, ['text', 'json']);
  const fails = failsOn(options);
  const player = playerFrom(options);
  const best = bestFrom(options);
  const names = await findInputs(words);
  if (options.page !== undefined) {
    makeFolder(options.page);
    checkOutput({ path: options.page, option: '--page', force: true, sources: names });
  }
  const solved = names.map((name) => {
    const text = readInput(name);
    return { file: fileName(name), text, snapshot: study(text, player, name) };
  });
  const reports = solved.map(({ file, snapshot }) => reportOf(snapshot, { chance: player.chance, file, best }));
  const report: Report = {
    passages: reports.flatMap((each) => each.passages),
    diagnostics: reports.flatMap((each) => each.diagnostics),
  };
  if (format === 'json') console.log(JSON.stringify(report, null, 2));
  else {
    const paint = paintFor(process.stdout);
    const texts = new Map(solved.map(({ file, text }) => [file, text]));
    console.log(solutionTable(report, paint));
    if (report.diagnostics.length > 0) console.log(listing(report.diagnostics, (file) => texts.get(file) ?? '', paint));
    console.log(tally(report.diagnostics, solved.length));
  }
  if (options.page !== undefined) {
    const { solutionPage } = await import('./page');
    writeOutput(options.page, solutionPage(solved.map((each) => each.snapshot)));
    // Not among the answers when they are JSON: another program reads those.
    (format === 'json' ? console.error : console.log)(`Page: ${resolve(options.page)}`);
  }
  return report.diagnostics.some(({ severity }) => fails(severity)) ? EXIT.findings : EXIT.clean;
}

/** Each costs about as much as solving the passage; more than this nobody compares. */
const MOST_BEST = 100;

function bestFrom({ best }: SolveOptions): number | undefined {
  if (best === undefined) return undefined;
  const count = Number(best);
  if (Number.isInteger(count) && count >= 1 && count <= MOST_BEST) return count;
  throw new CannotRun(`--best: ${best} is no count of fingerings; write a whole number from 1 to ${MOST_BEST}.`);
}
