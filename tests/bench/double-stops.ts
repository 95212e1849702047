import { usualTuning } from '../../server/instrument/build';
import type { Family } from '../../server/instrument/instrument';
import { pitchName, semitone, spell } from '../../server/music/pitch';
import type { EventSpec } from '../../server/passage/passage';
import { bestPath, lattice } from '../../server/solver/lattice';
import { createTables } from '../../server/solver/tables';
import { event, note, passage, setup } from '../solver/build';
import { leastWork } from '../support/least-work';
import { type Figure, ms } from './figure';
import { mixedNotes, random } from './mixed';

const NOTES = 1_000;
/** So many of the double stops with the most states, at random: hardly two steps are alike, so little is found ready made. */
const WORST = 40;

/** The passages that give the solver most to do: double stops in harmonics that lie in a thousand ways, with every table cold. */
export function doubleStopsBench(): readonly Figure[] {
  return (['violin', 'viola', 'cello'] as const).map((family) => {
    const hard = priced(worstDoubleStops(family), family);
    const mixed = priced(mixedNotes(NOTES), family);
    return {
      what: `each pair of states in ${NOTES} of the worst double stops, ${family}, against one in as many mixed notes`,
      ratio: hard.time / hard.pairs / (mixed.time / mixed.pairs),
      goal: { most: 1 / 2 },
      measured: `${said(hard)} against ${said(mixed)}`,
    };
  });
}

interface Priced {
  readonly time: number;
  /** Of states of neighbouring events: as many steps are weighed. */
  readonly pairs: number;
}

function priced(specs: readonly EventSpec[], family: Family): Priced {
  const made = passage(specs, setup({ family }));
  let pairs = 0;
  const time = leastWork(2, () => {
    const tables = createTables();
    const { columns } = lattice(made, tables);
    bestPath(columns, tables);
    pairs = columns.reduce((sum, { states }, i) => sum + states.size * (columns[i - 1]?.states.size ?? 0), 0);
  });
  return { time, pairs };
}

/** Two harmonics up to an octave apart, over all that the instrument has. */
function worstDoubleStops(family: Family): readonly EventSpec[] {
  const lowest = semitone(usualTuning(family)[0]!);
  const keys = Array.from({ length: 48 }, (_, up) => lowest + 12 + up);
  const harmonic = (key: number) => note(`${pitchName(spell(key))}o`);
  const all = keys.flatMap((low) =>
    Array.from({ length: 12 }, (_, above) => event([harmonic(low), harmonic(low + 1 + above)], { seconds: 0.3125 })),
  );
  const tables = createTables();
  const every = passage(all, setup({ family }));
  const sizes = new Map(all.map((spec, i) => [spec, tables.states(every, i).size]));
  const worst = all.sort((a, b) => sizes.get(b)! - sizes.get(a)!).slice(0, WORST);
  const next = random(7);
  return Array.from({ length: NOTES }, () => worst[Math.floor(next() * WORST)]!);
}

function said({ time, pairs }: Priced): string {
  return `${ms(time)} for ${(pairs / 1e6).toFixed(0)} million`;
}
