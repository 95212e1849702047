import { type Baseline, readBaseline, recorded, writeBaseline } from './baseline';
import { CannotRun, EXIT } from './cannot-run';
import { type Examined, fileName, type Job } from './examine';
import { examineAll } from './examine-all';
import type { Finding } from './finding';
import { CHECKED, findInputs, STANDARD_INPUT } from './inputs';
import { listing, tally } from './listing';
import { failsOn, formatFrom, type PlayerOptions, playerFrom } from './options';
import { checkOutput } from './output';
import { paintFor } from './paint';
import type { Report } from './report';

export interface CheckOptions extends PlayerOptions {
  readonly format: string;
  readonly fix?: boolean;
  readonly watch?: boolean;
  readonly baseline?: string;
  readonly writeBaseline?: string;
  readonly hands?: string;
  readonly players?: string;
}

/** `passagework check`: findings of all files, one exit code. */
export async function check(words: readonly string[], options: CheckOptions): Promise<number> {
  const format = formatFrom(options.format, ['text', 'json', 'sarif']);
  const fails = failsOn(options);
  const player = playerFrom(options);
  if (options.fix && words.includes(STANDARD_INPUT))
    throw new CannotRun('--fix changes files, and standard input is none: name the file.');
  if (options.hands !== undefined) {
    const shape = formatFrom(options.format, ['text', 'json']);
    return (await import('./hands')).handsTable(words, options.hands, player, shape);
  }
  if (options.players !== undefined) {
    const shape = formatFrom(options.format, ['text', 'json']);
    return (await import('./hands')).playersTable(words, options.players, player, shape);
  }
  const job = (name: string): Job => ({ name, player, fix: options.fix === true });
  const baseline = options.baseline === undefined ? undefined : readBaseline(options.baseline);
  const show = (examined: readonly Examined[]) => print(examined, format, baseline);
  if (options.watch) return (await import('./watch')).watch(words, job, show);

  const names = await findInputs(words, CHECKED);
  const place = options.writeBaseline;
  if (place !== undefined) checkOutput({ path: place, option: '--write-baseline', force: true, sources: names });
  const examined = await examineAll(names.map(job));
  if (place !== undefined) {
    const all = examined.flatMap(({ findings }) => findings);
    writeBaseline(place, all);
    console.error(`Recorded ${all.length} ${all.length === 1 ? 'finding' : 'findings'} in ${place}.`);
    return EXIT.clean;
  }
  const findings = await show(examined);
  return findings.some(({ diagnostic }) => fails(diagnostic.severity)) ? EXIT.findings : EXIT.clean;
}

/** Prints what the baseline doesn't know, and gives it back. */
async function print(
  examined: readonly Examined[],
  format: 'text' | 'json' | 'sarif',
  baseline?: Baseline,
): Promise<readonly Finding[]> {
  const all = examined.flatMap(({ findings }) => findings);
  const isRecorded = baseline ? recorded(baseline) : () => false;
  const fresh = all.filter((finding) => !isRecorded(finding));
  const diagnostics = fresh.map(({ diagnostic }) => diagnostic);
  if (format === 'json') {
    const report: Report = { passages: [], diagnostics };
    console.log(JSON.stringify(report, null, 2));
  } else if (format === 'sarif') {
    const { sarifLog } = await import('./sarif');
    console.log(JSON.stringify(sarifLog(all, baseline && isRecorded), null, 2));
  } else {
    const texts = new Map(examined.map(({ name, text }) => [fileName(name), text]));
    if (fresh.length > 0) console.log(listing(diagnostics, (file) => texts.get(file) ?? '', paintFor(process.stdout)));
    const applied = examined.reduce((sum, each) => sum + each.applied, 0);
    if (applied > 0) console.log(`${applied} ${applied === 1 ? 'cure' : 'cures'} applied.`);
    const left = all.length - fresh.length;
    console.log(`${tally(diagnostics, examined.length)}${left > 0 ? ` ${left} more in the baseline.` : ''}`);
  }
  return fresh;
}
