import { resolve } from 'node:path';
import { watch as watchFiles } from 'chokidar';
import { CannotRun, EXIT } from './cannot-run';
import { type Examined, examine, type Job } from './examine';
import { CHECKED, findInputs, STANDARD_INPUT } from './inputs';
import { playersOf } from './player-files';
import { note, say } from './say';

/**
 * Checks again whenever a file is saved, until interrupted. Only what changed is checked, and with a player's file the passages
 * that name it; a file that appears later counts too.
 */
export async function watch(
  words: readonly string[],
  job: (name: string) => Job,
  show: (examined: readonly Examined[]) => unknown,
): Promise<number> {
  if (words.includes(STANDARD_INPUT)) throw new CannotRun('--watch needs files: standard input is read once.');
  let names = await findInputs(words, CHECKED);
  await show(names.map((name) => examine(job(name))));
  const watcher = watchFiles([...words.map(root), ...names.flatMap(playersOf)], {
    ignoreInitial: true,
    ignored: /[/\\](node_modules|\.git)([/\\]|$)/,
    // An editor may write a file in several steps; half of one is not worth checking.
    awaitWriteFinish: { stabilityThreshold: 50, pollInterval: 10 },
  });
  watcher.on('all', async (_event, path) => {
    names = await findInputs(words, CHECKED).catch(() => []);
    const is = (each: string) => resolve(each) === resolve(path);
    const changed = names.filter((each) => is(each) || playersOf(each).some(is));
    if (changed.length === 0) return;
    say(`\n${new Date().toLocaleTimeString()} ${changed.join(', ')}`);
    await show(changed.map((name) => examine(job(name))));
  });
  note('Watching. Press Ctrl+C to stop.');
  await new Promise<void>((stop) => {
    process.once('SIGINT', stop);
    process.once('SIGTERM', stop);
  });
  await watcher.close();
  return EXIT.clean;
}

/** What to watch for a word of the command line: the part of a pattern before its first wild card. */
function root(word: string): string {
  const wild = word.search(/[*?[{(!]/);
  return wild === -1 ? word : word.slice(0, wild).replace(/[^/\\]*$/, '') || '.';
}
