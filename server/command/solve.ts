import { resolve } from 'node:path';
import { GENERATOR } from '../scene/page/generator';
import { type AnswerOptions, answerTo, checkAnswer } from './answer';
import { CannotRun, EXIT } from './cannot-run';
import { fileName, findInputs, readInput, STANDARD_INPUT } from './inputs';
import { reportOf } from './json';
import { jsonText } from './json-text';
import { listing, tally } from './listing';
import { failsOn, formatFrom, type PlayerOptions, playerFrom } from './options';
import { checkOutput, everythingRead, makeFolder } from './output';
import { paintFor } from './paint';
import { replaceFile } from './replace-file';
import type { Report } from './report';
import { note, say } from './say';
import { study } from './study';
import { solutionTable } from './table';
import { visibleWithin } from './visible';

export interface SolveOptions extends PlayerOptions, AnswerOptions {
  readonly format: string;
  readonly best?: string;
  readonly page?: string;
  readonly stdinFilepath?: string;
}

/** `passagework solve`: a fingering for every passage, as a table or as JSON, and as a page where asked. */
export async function solve(words: readonly string[], options: SolveOptions): Promise<number> {
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
    return { file: fileName(called), text, snapshot: study(text, player, called) };
  });
  const reports = solved.map(({ file, snapshot }) => reportOf(snapshot, { chance: snapshot.settings.safeChance, file, best }));
  const report: Report = {
    passages: reports.flatMap((each) => each.passages),
    diagnostics: reports.flatMap((each) => each.diagnostics),
  };
  if (format === 'json') answerTo(options, jsonText(report));
  else {
    const paint = paintFor(options.outputFile === undefined ? process.stdout : {});
    const texts = new Map(solved.map(({ file, text }) => [file, text]));
    const listed = report.diagnostics.length > 0 ? [listing(report.diagnostics, (file) => texts.get(file) ?? '', paint)] : [];
    answerTo(
      options,
      [solutionTable(visibleWithin(report), paint), ...listed, tally(report.diagnostics, solved.length)].join('\n'),
    );
  }
  if (page !== undefined) {
    const { solutionPage } = await import('./page');
    replaceFile(page, await solutionPage(solved.map((each) => each.snapshot)));
    // Not among the answers when they are JSON: another program reads those.
    (format === 'json' ? note : say)(`Page: ${resolve(page)}`);
  }
  return report.diagnostics.some(({ severity }) => fails(severity)) ? EXIT.findings : EXIT.clean;
}

/** True for a page that an earlier run wrote. */
function isPage(text: string): boolean {
  return text.startsWith('<!doctype html>') && text.includes(`<meta name="generator" content="${GENERATOR}">`);
}

/** Each costs about as much as solving the passage; more than this nobody compares. */
const MOST_BEST = 100;

function bestFrom({ best }: SolveOptions): number | undefined {
  if (best === undefined) return undefined;
  const count = Number(best);
  if (Number.isInteger(count) && count >= 1 && count <= MOST_BEST) return count;
  throw new CannotRun(`--best: ${best} is no count of fingerings; write a whole number from 1 to ${MOST_BEST}.`);
}
