import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { version } from '../../package.json';
import type { Examined, Job } from './examine';
import type { Finding } from './finding';
import { readBytes, STANDARD_INPUT, strictText } from './inputs';
import { playersOf } from './player-files';
import { projectOf } from './project';
import { replaceFile } from './replace-file';
import { sha256 } from './sha256';

/** What was found in files when they were last checked: by path, with a key made of all that it depended on. */
interface Cache {
  readonly passageworkCache: 1;
  readonly files: Readonly<Record<string, { readonly key: string; readonly findings: readonly Finding[] }>>;
}

export interface FindingCache {
  /** What a job would find, if nothing that it depends on has changed. */
  known(job: Job): Examined | undefined;
  /** Keeps what jobs have found, and what else is known of files that are still there. */
  keep(jobs: readonly Job[], examined: readonly Examined[]): void;
}

export function findingCache(path: string): FindingCache {
  const before = existsSync(path) ? cacheIn(readFileSync(path, 'utf8'))?.files : undefined;
  const keys = new Map<Job, string | undefined>();
  const key = (job: Job) => {
    if (!keys.has(job)) keys.set(job, keyOf(job));
    return keys.get(job);
  };
  return {
    known(job) {
      const entry = before?.[resolve(job.name)];
      if (!entry || job.name === STANDARD_INPUT || entry.key !== key(job)) return undefined;
      return {
        name: job.name,
        text: strictText(readBytes(job.name), job.name).text,
        findings: namedAs(entry.findings, job),
        applied: 0,
      };
    },
    keep(jobs, examined) {
      const files = Object.fromEntries(Object.entries(before ?? {}).filter(([file]) => existsSync(file)));
      for (const [index, job] of jobs.entries()) {
        const { refused, findings } = examined[index] as Examined;
        const made = key(job);
        if (refused === undefined && made !== undefined && job.name !== STANDARD_INPUT)
          files[resolve(job.name)] = { key: made, findings };
      }
      replaceFile(path, JSON.stringify({ passageworkCache: 1, files } satisfies Cache));
    },
  };
}

/** True for what an earlier run wrote. */
export function isCache(text: string): boolean {
  return cacheIn(text) !== undefined;
}

function cacheIn(text: string): Cache | undefined {
  try {
    const read: Partial<Cache> | null = JSON.parse(text);
    return read?.passageworkCache === 1 && typeof read.files === 'object' ? (read as Cache) : undefined;
  } catch {
    return undefined;
  }
}

/** Of everything that a file's findings depend on: this program, the file, the players that it names, its project, the command line. */
function keyOf({ name, player }: Job): string | undefined {
  try {
    const hash = sha256();
    const add = (part: string | Uint8Array) => hash.update(`${part.length}\n`).update(part);
    add(program());
    add(readBytes(name));
    for (const path of [...playersOf(name), player.player ?? []].flat()) {
      add(path);
      add(existsSync(path) ? readBytes(path) : 'missing');
    }
    add(JSON.stringify([player, projectOf(name)?.project ?? null]));
    return hash.digest('hex');
  } catch {
    return undefined;
  }
}

let ownHash: string | undefined;

function program(): string {
  ownHash ??= `${version} ${sha256()
    .update(readFileSync(fileURLToPath(import.meta.url)))
    .digest('hex')}`;
  return ownHash;
}

/** A file may be called by another path today than yesterday. */
function namedAs(findings: readonly Finding[], { name }: Job): readonly Finding[] {
  const file = name.replaceAll('\\', '/');
  return findings.map((finding) => ({ ...finding, diagnostic: { ...finding.diagnostic, file } }));
}
