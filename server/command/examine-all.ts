import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { type Examined, examine, type Job } from './examine';
import { progressBar } from './progress-bar';

/** Below this many files, starting threads takes longer than they save. */
const WORTH_THREADS = 24;

/** Checks files, in the order given; with a cache only those that anything has changed for. */
export async function examineAll(jobs: readonly Job[], cacheFile?: string): Promise<readonly Examined[]> {
  if (cacheFile === undefined) return examineEach(jobs);
  const { findingCache } = await import('./finding-cache');
  const cache = findingCache(cacheFile);
  const known = jobs.map((job) => cache.known(job));
  const fresh = (await examineEach(jobs.filter((_, index) => !known[index]))).values();
  const examined = known.map((each) => each ?? (fresh.next().value as Examined));
  cache.keep(jobs, examined);
  return examined;
}

/** On every core when there are many, with a bar of progress where a person watches. */
async function examineEach(jobs: readonly Job[]): Promise<readonly Examined[]> {
  const cores = availableParallelism();
  if (jobs.length < WORTH_THREADS || cores < 2) return jobs.map(examine);
  const { default: Tinypool } = await import('tinypool');
  const pool = new Tinypool({ filename: fileURLToPath(new URL('./command-worker.cjs', import.meta.url)), maxThreads: cores });
  const bar = await progressBar('checking', '{value}/{total}', jobs.length);
  try {
    return await Promise.all(
      jobs.map(async (job) => {
        const examined = (await pool.run(job)) as Examined;
        bar.step();
        return examined;
      }),
    );
  } finally {
    bar.stop();
    await pool.destroy();
  }
}
