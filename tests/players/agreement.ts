import { createSolver } from '../../server/solver/solve';
import type { Chosen } from './data';
import type { Run } from './score';

/** How the solver's choices compare with those of players: sums over notes of the share of players. */
export interface Agreement {
  notes: number;
  both: number;
  string: number;
  finger: number;
  /** Notes that nobody played so. */
  none: number;
  /** Pairs of players, and of those the ones that agree on string and finger. */
  pairs: number;
  agreeing: number;
}

export function nothing(): Agreement {
  return { notes: 0, both: 0, string: 0, finger: 0, none: 0, pairs: 0, agreeing: 0 };
}

export function added(...all: readonly Agreement[]): Agreement {
  const sum = nothing();
  for (const one of all) for (const key of Object.keys(sum) as (keyof Agreement)[]) sum[key] += one[key];
  return sum;
}

/** Solves the runs of a piece and compares every note. */
export function agreementOf(runs: readonly Run[]): Agreement {
  const sum = nothing();
  const solver = createSolver();
  for (const { passage, chosen } of runs) {
    const { events } = solver.solve(passage);
    for (const [event, players] of chosen.entries()) {
      const known = players.flatMap((one) => (one ? [one] : []));
      if (known.length === 0) continue;
      const ways = events[event]?.fingering.ways;
      for (let note = 0; note < known[0]!.length; note++) {
        const way = ways?.[note];
        const mine = way && { string: 3 - way.string, finger: Number((way.stop ?? way.touch)?.finger ?? 0) };
        compare(
          mine,
          known.map((one) => one[note]!),
          sum,
        );
      }
    }
  }
  return sum;
}

function compare(mine: Pick<Chosen, 'string' | 'finger'> | undefined, theirs: readonly Chosen[], sum: Agreement): void {
  const share = (agrees: (one: Chosen) => boolean) => theirs.filter(agrees).length / theirs.length;
  const both = mine ? share((one) => one.string === mine.string && one.finger === mine.finger) : 0;
  sum.notes++;
  sum.both += both;
  sum.string += mine ? share((one) => one.string === mine.string) : 0;
  sum.finger += mine ? share((one) => one.finger === mine.finger) : 0;
  sum.none += both === 0 ? 1 : 0;
  for (const [i, one] of theirs.entries()) {
    for (const other of theirs.slice(i + 1)) {
      sum.pairs++;
      if (one.string === other.string && one.finger === other.finger) sum.agreeing++;
    }
  }
}

/** Of harmonics, sums over all: asked for, taken on the string that was played, and with its finger too. */
export interface Harmonics {
  asked: number;
  string: number;
  finger: number;
}

/** Solves runs that ask for their harmonics as they were printed, and compares those. The data give one finger of two: either will do. */
export function harmonicsOf(runs: readonly Run[]): Harmonics {
  const sum: Harmonics = { asked: 0, string: 0, finger: 0 };
  const solver = createSolver();
  for (const { passage, chosen, harmonics } of runs) {
    if (!harmonics.some(Boolean)) continue;
    const { events } = solver.solve(passage);
    for (const [event, harmonic] of harmonics.entries()) {
      const theirs = chosen[event]?.[0]?.[0];
      if (!harmonic || !theirs) continue;
      const way = events[event]?.fingering.ways[0];
      const string = way && 3 - way.string === theirs.string;
      const finger = string && [way.stop?.finger, way.touch?.finger].some((one) => Number(one) === theirs.finger);
      sum.asked++;
      sum.string += Number(string);
      sum.finger += Number(finger);
    }
  }
  return sum;
}
