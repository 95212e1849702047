/**
 * How well the tests of a room would notice a fault in it: `ROOM=hand npm run mutants` puts every small fault that Stryker knows
 * into the room's code, one at a time, and runs the tests that speak for it. Survivors are printed and shown in
 * out/mutants-<room>.html, each a place to look at: a gap in the tests, code that does nothing, or another way to the same end.
 */
const ROOMS = {
  grammar: { code: ['grammar/*.ts'], tests: ['tests/grammar/*.test.ts'] },
  music: {
    code: ['server/music/*.ts'],
    tests: ['tests/music/*.test.ts', 'tests/published/{handbook-frequencies,harmonic-series}.test.ts'],
  },
  instrument: {
    // Counting which test runs what, in the loops of the simulated string, takes a minute a run.
    code: ['server/instrument/*.ts', '!server/instrument/waveguide.ts'],
    tests: [
      'tests/instrument/*.test.ts',
      'tests/published/{open-strings,string-data,handbook-frequencies,harmonic-series,one-hand}.test.ts',
    ],
  },
  hand: {
    code: ['server/hand/*.ts'],
    tests: ['tests/hand/*.test.ts', 'tests/player/*.test.ts', 'tests/solver/practice.test.ts'],
  },
  solver: { code: ['server/solver/*.ts'], tests: ['tests/solver/*.test.ts'] },
};

const room = process.env.ROOM ?? '';
if (!(room in ROOMS)) throw new Error(`Name a room, as in ROOM=hand npm run mutants: ${Object.keys(ROOMS).join(', ')}.`);

/** Told to vitest and not by Stryker's own `testFiles`: with that, Stryker 9.6 never puts in a fault that acts while a file is loaded. */
export const TESTS = ROOMS[room].tests;

export default {
  testRunner: 'vitest',
  vitest: { configFile: 'tests/support/mutants.vitest.mjs', related: false },
  mutate: ROOMS[room].code,
  coverageAnalysis: 'perTest',
  concurrency: 2,
  timeoutMS: 20_000,
  tempDirName: 'out/mutants',
  ignorePatterns: ['dist', 'out', 'coverage'],
  reporters: ['clear-text', 'html', 'progress-append-only'],
  clearTextReporter: { allowColor: false, logTests: false },
  htmlReporter: { fileName: `out/mutants-${room}.html` },
};
