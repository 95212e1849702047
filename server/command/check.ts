import { type AnswerOptions, answerTo, checkAnswer, streamOf } from './answer';
import { type Baselines, baselineOf, baselines, isBaseline, writeBaseline } from './baseline';
import { CannotRun, EXIT } from './cannot-run';
import type { Examined, Job } from './examine';
import { examineAll } from './examine-all';
import { isCache } from './finding-cache';
import { CHECKED, findInputs, reportedName, STANDARD_INPUT } from './inputs';
import { failsOn, formatFrom, type PlayerOptions, playerFrom } from './options';
import { checkOutput, everythingRead } from './output';
import { FINDING_FORMATS, type Findings, printed } from './printed';
import { complain, note } from './say';

export interface CheckOptions extends PlayerOptions, AnswerOptions {
  readonly format: string;
  readonly fix?: boolean;
  readonly unsafeFixes?: boolean;
  readonly diff?: boolean;
  readonly watch?: boolean;
  readonly quiet?: boolean;
  readonly maxWarnings?: string;
  readonly stdinFilepath?: string;
  readonly changed?: boolean;
  readonly since?: string;
  readonly cache?: boolean;
  readonly cacheFile?: string;
  readonly baseline?: string;
  readonly writeBaseline?: string;
  readonly hands?: string;
  readonly players?: string;
}

/** What git knows is asked of another program, and what starts one is loaded for those who ask. */
async function changedOnly(names: readonly string[], since: string | undefined): Promise<readonly string[]> {
  return (await import('./git')).changedOnly(names, since);
}

/** `passagework check`: findings of all files, one exit code. */
export async function runCheck(words: readonly string[], options: CheckOptions): Promise<number> {
  const format = formatFrom(options.format, FINDING_FORMATS);
  const player = playerFrom(options);
  const most = mostWarnings(options);
  const fails = failsOn(options);
  if (options.hands !== undefined || options.players !== undefined) {
    const shape = formatFrom(options.format, ['text', 'json']);
    return (await import('./hands')).handsTable(words, options, player, shape);
  }
  const fix = fixFrom(words, options);
  const as = options.stdinFilepath;
  const job = (name: string): Job => ({
    name,
    player,
    ...(fix && { fix }),
    ...(name === STANDARD_INPUT && as !== undefined && { as }),
  });
  if (options.watch) {
    const show = (examined: readonly Examined[]) =>
      answerTo({}, printed(findingsIn(examined, options, baselines(options.baseline)), format));
    return (await import('./watch')).watch(words, job, show);
  }

  const found = await findInputs(words, CHECKED);
  const names = options.changed || options.since !== undefined ? await changedOnly(found, options.since) : found;
  const record = options.writeBaseline;
  checkOutputs(names, options);

  const examined = await examineAll(names.map(job), cacheFrom(options));
  const refused = examined.flatMap((each) => each.refused ?? []);
  refused.forEach(complain);
  if (names.length > 0 && refused.length === names.length) return EXIT.cannotRun;
  if (record !== undefined) {
    if (refused.length > 0) throw new CannotRun('No baseline is recorded while files can’t be read.');
    const all = examined.flatMap(({ findings }) => findings);
    writeBaseline(record, all);
    note(`Recorded ${all.length} ${all.length === 1 ? 'finding' : 'findings'} in ${record}.`);
    return EXIT.clean;
  }
  if (fix && !fix.write) {
    const { differences } = await import('./differences');
    const shown = differences(examined);
    answerTo(options, shown === '' ? 'Nothing would be changed.' : shown);
    return refused.length > 0 ? EXIT.cannotRun : shown === '' ? EXIT.clean : EXIT.findings;
  }
  const findings = findingsIn(examined, options, baselines(options.baseline));
  answerTo(options, printed(findings, format, streamOf(options)));
  if (refused.length > 0) return EXIT.cannotRun;
  const counted = findings.fresh.map(({ diagnostic }) => diagnostic.severity);
  const warnings = counted.filter((severity) => severity === 'warning').length;
  if (warnings > most) note(`There are ${warnings} warnings, and --max-warnings allows ${most}.`);
  return warnings > most || counted.some(fails) ? EXIT.findings : EXIT.clean;
}

/** What is found and is not in a baseline; with `--quiet` the errors are all that is shown. */
function findingsIn(examined: readonly Examined[], { quiet = false }: CheckOptions, known: Baselines): Findings {
  const all = examined.flatMap(({ findings }) => findings);
  const recorded = new Set(all.filter((finding) => known.has(finding)));
  const fresh = all.filter((finding) => !recorded.has(finding));
  return { examined, all, fresh, recorded: known.any ? recorded : undefined, quiet };
}

function fixFrom(words: readonly string[], { fix, unsafeFixes, diff }: CheckOptions): Job['fix'] {
  if (!fix && !unsafeFixes && !diff) return undefined;
  if (words.includes(STANDARD_INPUT) && !diff)
    throw new CannotRun(
      `${unsafeFixes ? '--unsafe-fixes' : '--fix'} changes files, and standard input is none: name the file, or show the changes with --diff.`,
    );
  return { certainty: unsafeFixes ? 'likely' : 'sure', write: !diff };
}

function mostWarnings({ maxWarnings }: CheckOptions): number {
  if (maxWarnings === undefined) return Number.POSITIVE_INFINITY;
  if (/^\d{1,9}$/.test(maxWarnings)) return Number(maxWarnings);
  throw new CannotRun(`--max-warnings: ${maxWarnings} is not a count; write a whole number such as 0.`);
}

/** Refuses what is to be written, and should not be, before any work is done for it. */
function checkOutputs(names: readonly string[], options: CheckOptions): void {
  const { writeBaseline: record, outputFile, player, baseline, force } = options;
  const cache = cacheFrom(options);
  if (record === undefined && outputFile === undefined && cache === undefined) return;
  const read = everythingRead(names, player);
  if (record !== undefined) checkOutput({ path: record, option: '--write-baseline', force, ours: isBaseline, sources: read });
  const sources = [...read, ...names.flatMap((name) => baselineOf(reportedName(name)) ?? []), baseline ?? []].flat();
  if (cache !== undefined) checkOutput({ path: cache, option: '--cache-file', force: false, ours: isCache, sources });
  checkAnswer(options, sources);
}

function cacheFrom({ cache, cacheFile, fix, unsafeFixes, diff }: CheckOptions): string | undefined {
  if (fix || unsafeFixes || diff) return undefined;
  return cacheFile ?? (cache ? '.passagework-cache.json' : undefined);
}
