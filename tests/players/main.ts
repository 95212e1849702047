import { writeFileSync } from 'node:fs';
import { FAMILIES, FAMILY_NAMES, HABITS, setHabitCosts } from '../../server/solver/habits';
import { setup } from '../solver/build';
import { type Agreement, added, agreementOf, type Harmonics, harmonicsOf } from './agreement';
import type { Sample } from './crf';
import { type Piece, readPlayers } from './data';
import { costsOf, fit as fitted } from './fit';
import { Lists, Taker } from './lattice';
import { type Run, runsOf } from './score';
import { taught } from './taught';

/**
 * `npm run players`: how far the solver's fingerings are those of professionals, with the weights that ship.
 * `npm run players -- --fit`: learns the weights anew, reports them on what was left out (every work of the ten violinists by the
 * others and the performances; the performances by the ten violinists alone) and writes `server/solver/learned.ts`.
 */
const FOLDER = '../shared/players';
const LEARNED = 'server/solver/learned.ts';

const pieces = readPlayers(FOLDER);
if (!pieces) {
  console.log(`Skipped: what players did is not beside the repository (${FOLDER}). Nothing was measured.`);
  process.exit(process.env.CI ? 1 : 0);
}

const violin = setup();
const runs = new Map(pieces.map((piece) => [piece, runsOf(piece, violin)]));
const ten = pieces.filter(({ set }) => set === 'ten violinists');
const performances = pieces.filter(({ set }) => set === 'performances');

if (process.argv.includes('--fit')) learn();
else {
  console.log('With the weights that ship, which were fitted on all of this (what is left out: npm run players -- --fit)');
  report(measured(ten), measured(performances));
}

function measured(some: readonly Piece[]): Map<Piece, Agreement> {
  return new Map(some.map((piece) => [piece, agreementOf(runs.get(piece)!)]));
}

function learn(): void {
  const lists = new Lists();
  const taker = new Taker(lists);
  const samples = new Map(pieces!.map((piece) => [piece, sampleOf(runs.get(piece)!, piece.players, taker)]));
  const lessons = taught(taker);
  console.log(`${lists.all.length} kinds of choice; ${lessons.length} cases of common practice beside what players did`);
  const weigh = (some: readonly Piece[]) => costsOf(fitted([...some.map((one) => samples.get(one)!), ...lessons], lists));
  const folds: Float64Array[] = [];
  const left = new Map<Piece, Agreement>();
  for (const work of new Set(ten.map((piece) => piece.work))) {
    const began = Date.now();
    const costs = weigh(pieces!.filter((piece) => piece.work !== work));
    console.log(`${work} left out: fitted in ${((Date.now() - began) / 1000).toFixed(0)} s`);
    folds.push(costs);
    setHabitCosts('violin', costs);
    for (const piece of ten.filter((one) => one.work === work)) {
      left.set(piece, agreementOf(runs.get(piece)!));
      line(piece, left.get(piece)!);
    }
  }
  setHabitCosts('violin', weigh(ten));
  const onPerformances = measured(performances);
  console.log('\nWhole works left out; performances by weights from the ten violinists alone');
  report(left, onPerformances);
  const all = weigh(pieces!);
  writeFileSync(LEARNED, learnedTable(all, folds, added(...left.values()), added(...onPerformances.values())));
  console.log(`\nWritten: ${LEARNED}`);
}

function sampleOf(some: readonly Run[], players: number, taker: Taker): Sample {
  return { runs: some.map((run) => taker.bare(run)), players };
}

function report(left: ReadonlyMap<Piece, Agreement>, onPerformances: ReadonlyMap<Piece, Agreement>): void {
  for (const found of [left, onPerformances]) {
    console.log(`\n${'piece'.padEnd(38)}  notes   both  string finger  none  players with each other`);
    for (const [piece, one] of found) line(piece, one);
    line({ name: 'all', dropped: 0 }, added(...found.values()));
  }
  const { asked, string, finger } = harmonics();
  console.log(`\nHarmonics of the performances, asked for as printed: ${asked}`);
  console.log(`on the string that was played ${(string / asked).toFixed(3)}, with its finger ${(finger / asked).toFixed(3)}`);
  console.log(`\nRows dropped because they contradict themselves: ${pieces!.reduce((sum, { dropped }) => sum + dropped, 0)}`);
}

function harmonics(): Harmonics {
  const all = performances.map((piece) => harmonicsOf(runsOf(piece, violin, true)));
  const sum = (name: keyof Harmonics) => all.reduce((so, one) => so + one[name], 0);
  return { asked: sum('asked'), string: sum('string'), finger: sum('finger') };
}

function line(
  { name }: Pick<Piece, 'name' | 'dropped'>,
  { notes, both, string, finger, none, pairs, agreeing }: Agreement,
): void {
  const share = (part: number) => (part / notes).toFixed(3).padStart(6);
  const each = pairs ? (agreeing / pairs).toFixed(3) : '-';
  console.log(
    `${name.padEnd(38)} ${String(notes).padStart(6)} ${share(both)} ${share(string)} ${share(finger)} ${share(none)}  ${each}`,
  );
}

function learnedTable(all: Float64Array, folds: readonly Float64Array[], left: Agreement, onPerformances: Agreement): string {
  const rows = FAMILY_NAMES.map((name) => {
    const members = FAMILIES[name].choices.map((choice) => {
      const key = `${name}: ${choice}`;
      const habit = HABITS.indexOf(key);
      const values = folds.map((one) => one[habit]!);
      const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
      const spread = Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length);
      return `  '${key}': [${all[habit]!.toFixed(3)}, ${spread.toFixed(3)}],`;
    });
    return `  // ${FAMILIES[name].words}\n${members.join('\n')}`;
  });
  const share = ({ both, notes }: Agreement) => (both / notes).toFixed(3);
  return `/**
 * What each habit costs, nats, and how far that varies (standard deviation) when one work is left out of the fit. Made by
 * \`npm run players -- --fit\`; not to be changed by hand. Fitted on two published data sets: ten professional violinists' written
 * fingerings (TNUA violin fingering data set, 2021) and fingerings read off video recordings (YTVF data set, 2023), with
 * cases of common practice beside them (tests/players/taught.ts). String and finger as played on works left
 * out of the fit: ${share(left)} of the notes; on performances, by the ten violinists alone: ${share(onPerformances)}.
 */
export const LEARNED: Readonly<Record<string, readonly [cost: number, spread: number]>> = {
${rows.join('\n')}
};
`;
}
