import { readFileSync, realpathSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { type Baseline, baselineIn } from '../workspace/baseline';
import { CannotRun } from './cannot-run';
import { isFile } from './file-at';
import type { Finding } from './finding';
import { projectOf } from './project';
import { replaceFile } from './replace-file';
import { note } from './say';

/** Tells of findings whether a baseline has recorded them. */
export interface Baselines {
  /** True where there is a baseline for anything that was asked about. */
  readonly any: boolean;
  has(finding: Finding): boolean;
}

/** The baseline that the command line names, or else each file's project. */
export function baselines(named: string | undefined): Baselines {
  const read = new Map<string, ReadonlySet<string>>();
  const at = (path: string) => {
    const known = read.get(path) ?? recordedAt(path);
    read.set(path, known);
    return known;
  };
  if (named !== undefined) at(named);
  return {
    get any() {
      return read.size > 0;
    },
    has({ diagnostic: { file }, fingerprint }) {
      const path = named ?? baselineOf(file);
      return path !== undefined && at(path).has(`${keyFor(path, file)}\n${fingerprint}`);
    },
  };
}

/** Where the project of a file keeps its baseline. */
export function baselineOf(file: string | undefined): string | undefined {
  const own = projectOf(file);
  return own?.project.baseline === undefined ? undefined : join(own.folder, own.project.baseline);
}

/** A baseline that is not there yet is one without findings. */
function recordedAt(path: string): ReadonlySet<string> {
  if (!isFile(path)) {
    note(`There is no baseline ${path} yet, so every finding counts. Record today's with --write-baseline ${path}.`);
    return new Set();
  }
  const { findings } = readBaseline(path);
  return new Set(Object.entries(findings).flatMap(([file, prints]) => prints.map((print) => `${file}\n${print}`)));
}

function readBaseline(path: string): Baseline {
  const read = baselineIn(readFileSync(path, 'utf8'));
  if (read) return read;
  throw new CannotRun(`${path} is not a baseline of this version. Record a new one with --write-baseline ${path} --force.`);
}

/** In order of file and fingerprint, so that version control shows only what changed. */
export function writeBaseline(path: string, findings: readonly Finding[]): void {
  const byFile = new Map<string, string[]>();
  for (const { diagnostic, fingerprint } of findings) {
    const file = keyFor(path, diagnostic.file);
    byFile.set(file, [...(byFile.get(file) ?? []), fingerprint]);
  }
  const sorted = [...byFile].sort(([a], [b]) => (a < b ? -1 : 1)).map(([file, prints]) => [file, prints.sort()]);
  const baseline: Baseline = { version: 2, findings: Object.fromEntries(sorted) };
  replaceFile(path, `${JSON.stringify(baseline, null, 2)}\n`);
}

/** True for what an earlier run wrote. */
export function isBaseline(text: string): boolean {
  return baselineIn(text) !== undefined;
}

/** A file as the baseline names it, however it was spelt; standard input has no name. */
function keyFor(baseline: string, file: string | undefined): string {
  return file === undefined ? '' : relative(real(dirname(resolve(baseline))), real(resolve(file))).replaceAll('\\', '/');
}

function real(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}
