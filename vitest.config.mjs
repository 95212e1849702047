import { basename } from 'node:path';
import { defineConfig } from 'vitest/config';
import { BaseSequencer } from 'vitest/node';

/** Files that take a minute and more: begun last, one of them would keep one core busy and leave the other idle. */
const LONGEST = [
  'kept.slow.ts',
  'bowing.slow.ts',
  'listening.slow.ts',
  'lost.slow.ts',
  'install.slow.ts',
  'panel.slow.ts',
  'edits.fuzz.ts',
  'properties.fuzz.ts',
];

class LongestFirst extends BaseSequencer {
  async sort(files) {
    const rank = ({ moduleId }) => (LONGEST.indexOf(basename(moduleId)) + LONGEST.length + 1) % (LONGEST.length + 1);
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}

/**
 * A test's name says which run it belongs to: `x.test.ts` to `npm test`, `x.slow.ts` to `npm run test:slow`, and so for
 * `fuzz`, `soak` and `workbench` (`vitest run --mode slow`). Only `npm test` is quick enough to run on every save.
 */
export default defineConfig(({ mode }) => ({
  test: {
    include: [`tests/**/*.${mode}.ts`],
    // Long enough for a machine that is busy with other things. The slow runs do real work, some of it in other processes; each test there sets its own time if this is not enough.
    testTimeout: mode === 'test' ? 60_000 : 300_000,
    hookTimeout: mode === 'test' ? 60_000 : 600_000,
    expect: { poll: { timeout: 10_000 } },
    // By itself it leaves one of two cores idle.
    maxWorkers: '100%',
    // Loading the modules anew for each file took longer than the tests themselves. What weighs processor time is among the slow
    // tests, each file in a process of its own.
    isolate: mode !== 'test',
    pool: 'forks',
    // A soak weighs what is left when all that nobody holds has been taken away.
    execArgv: mode === 'soak' ? ['--expose-gc'] : [],
    // A step of a person in a real editor may meet it at a busy moment; a fault of ours meets every try.
    sequence: { sequencer: LongestFirst },
    retry: mode === 'workbench' ? 2 : 0,
    passWithNoTests: mode !== 'test',
    // One browser, one VS Code at a time.
    fileParallelism: mode !== 'workbench',
    reporters: ['default', './tests/support/published-reporter.ts'],
    coverage: {
      include: ['grammar/**/*.ts', 'server/**/*.ts', 'client/**/*.ts'],
      reporter: ['text-summary', 'json-summary'],
    },
  },
}));
