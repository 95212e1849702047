import { spawnSync } from 'node:child_process';

/** Processor time of a whole run of Node, ms: of two runs by turns it says more than the clock of a busy machine. */
export function processorTime(words: readonly string[], input = ''): number {
  const { status, stderr, output } = spawnSync(process.execPath, ['--require', './tests/bench/processor-time.cjs', ...words], {
    input,
    stdio: ['pipe', 'ignore', 'pipe', 'pipe'],
    encoding: 'utf8',
  });
  // 1 where problems were found and told.
  if (status === null || status > 1) throw new Error(stderr);
  return Number(output[3]);
}
