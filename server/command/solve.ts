import { resolve } from 'node:path';
import { GENERATOR } from '../scene/page/generator';
import { type AnswerOptions, answerTo, checkAnswer, streamOf, streamTo } from './answer';
import { CannotRun, EXIT } from './cannot-run';
import { findInputs, readInput, reportedName, STANDARD_INPUT } from './inputs';
import { streamedReport } from './json';
import { jsonPieces } from './json-text';
import { listing, tally } from './listing';
import { failsOn, formatFrom, type PlayerOptions, playerFrom } from './options';
import { checkOutput, everythingRead, makeFolder } from './output';
import { paintFor } from './paint';
import { replaceFile } from './replace-file';
import { note, say } from './say';
import { study } from './study';
import { solutionTable } from './table';

export interface SolveOptions extends PlayerOptions, AnswerOptions {
  readonly format: string;
  readonly best?: string;
  readonly page?: string;
  readonly stdinFilepath?: string;
}

/** `passagework solve`: a fingering for every passage, as a table or as JSON, and as a page where asked. */
export async function runSolve(words: readonly string[], options: SolveOptions): Promise<number> {
  const format = formatFrom(options.format, ['text', 'json']);
  const fails = failsOn(options);
  const player = playerFrom(options);
  const best = bestFrom(options);
  const names = await findInputs(words);
  const { page, force } = options;
  const sources = everythingRead(names, player.player);
  if (page !== undefined) {
    makeFolder(page);
    checkOutput({ path: page, option: '--page', force, ours: isPage, sources });
  }
  checkAnswer(options, sources);
  const solved = names.map((name) => {
    const text = readInput(name);
    const called = name === STANDARD_INPUT ? (options.stdinFilepath ?? name) : name;
    return { file: reportedName(called), text, snapshot: study(text, player, called) };
  });
  const snapshots = solved.map(({ snapshot }) => snapshot);
  const alternatives = format === 'json';
  const report = streamedReport(snapshots, (index) => {
    const { file, snapshot } = solved[index]!;
    return { chance: snapshot.settings.safeChance, file, best, alternatives };
  });
  if (format === 'json') await streamTo(options, jsonPieces(report));
  else {
    const diagnostics = [...report.diagnostics];
    const paint = paintFor(streamOf(options));
    const texts = new Map(solved.map(({ file, text }) => [file, text]));
    const listed = diagnostics.length > 0 ? [listing(diagnostics, (file) => texts.get(file) ?? '', paint)] : [];
    answerTo(
      options,
      [solutionTable({ ...report, diagnostics }, paint), ...listed, tally(diagnostics, solved.length)].join('\n'),
    );
  }
  if (page !== undefined) {
    const { solutionPage } = await import('./page');
    replaceFile(page, await solutionPage(snapshots));
    // Not among the answers when they are JSON: another program reads those.
    (format === 'json' ? note : say)(`Page: ${resolve(page)}`);
  }
  return snapshots.some(({ problems }) => problems.some(({ severity }) => fails(severity))) ? EXIT.findings : EXIT.clean;
}

/** True for a page that an earlier run wrote. */
function isPage(text: string): boolean {
  return text.startsWith('<!doctype html>') && text.includes(`<meta name="generator" content="${GENERATOR}">`);
}

/** More than this nobody compares. */
const MOST_BEST = 100;

function bestFrom({ best }: SolveOptions): number | undefined {
  if (best === undefined) return undefined;
  const count = Number(best);
  if (Number.isInteger(count) && count >= 1 && count <= MOST_BEST) return count;
  throw new CannotRun(`--best: ${best} is not a number of fingerings; write a whole number from 1 to ${MOST_BEST}.`);
}
