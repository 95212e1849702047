import { existsSync, readFileSync } from 'node:fs';
import { CannotRun } from './cannot-run';
import type { Finding } from './finding';
import { writeOutput } from './output';

/** Findings that a collection had when it took up checking: by file, fingerprints. They are left out until they change. */
export interface Baseline {
  readonly version: 1;
  readonly findings: Readonly<Record<string, readonly string[]>>;
}

export function readBaseline(path: string): Baseline {
  if (!existsSync(path)) throw new CannotRun(`There is no baseline ${path}. Record one with --write-baseline ${path}.`);
  try {
    const read: unknown = JSON.parse(readFileSync(path, 'utf8'));
    if (isBaseline(read)) return read;
  } catch {
    // Told below, with the same cure.
  }
  throw new CannotRun(`${path} is not a baseline of this version. Record a new one with --write-baseline ${path}.`);
}

/** In order of file and fingerprint, so that version control shows only what changed. */
export function writeBaseline(path: string, findings: readonly Finding[]): void {
  const byFile = new Map<string, string[]>();
  for (const { diagnostic, fingerprint } of findings) {
    const file = diagnostic.file ?? '';
    byFile.set(file, [...(byFile.get(file) ?? []), fingerprint]);
  }
  const sorted = [...byFile].sort(([a], [b]) => (a < b ? -1 : 1)).map(([file, prints]) => [file, prints.sort()]);
  const baseline: Baseline = { version: 1, findings: Object.fromEntries(sorted) };
  writeOutput(path, `${JSON.stringify(baseline, null, 2)}\n`);
}

/** True for a finding that the baseline has recorded. */
export function recorded(baseline: Baseline): (finding: Finding) => boolean {
  const known = new Set(
    Object.entries(baseline.findings).flatMap(([file, prints]) => prints.map((print) => `${file}\n${print}`)),
  );
  return ({ diagnostic, fingerprint }) => known.has(`${diagnostic.file ?? ''}\n${fingerprint}`);
}

function isBaseline(read: unknown): read is Baseline {
  if (typeof read !== 'object' || read === null) return false;
  const { version, findings } = read as Partial<Baseline>;
  return (
    version === 1 &&
    typeof findings === 'object' &&
    findings !== null &&
    Object.values(findings).every((prints) => Array.isArray(prints) && prints.every((print) => typeof print === 'string'))
  );
}
