import { pitchName, spell } from '../../server/music/pitch';
import type { EventSpec } from '../../server/passage/passage';
import { event, note } from '../solver/build';

/** Numbers from 0 up to 1, always the same ones (a linear congruence; quality matters little here). */
export function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return state / 0x80000000;
  };
}

/**
 * A long passage of mixed notes: two thirds stopped, a quarter harmonics by sounding pitch, the rest double
 * stops of both; three durations, some slurred. Equal demands are one object, as the passage room gives them.
 */
export function mixedNotes(count: number, seed = 7): EventSpec[] {
  const next = random(seed);
  const interned = new Map<string, EventSpec>();
  const name = (low: number, range: number) => pitchName(spell(low + Math.floor(next() * range)));
  const make = (): EventSpec => {
    const kind = next();
    const seconds = [0.15625, 0.3125, 0.625][Math.floor(next() * 3)]!;
    if (kind < 0.65) return event([note(name(55, 36))], { seconds, slurred: next() < 0.4 });
    if (kind < 0.9) return event([note(`${name(79, 28)}o`)], { seconds, slurred: next() < 0.3 });
    const low = 60 + Math.floor(next() * 16);
    const high = low + [3, 4, 5, 7, 8, 9][Math.floor(next() * 6)]!;
    const [up, mark] = next() < 0.3 ? [24, 'o'] : [0, ''];
    return event([note(pitchName(spell(low + up)) + mark), note(pitchName(spell(high + up)) + mark)], { seconds });
  };
  return Array.from({ length: count }, () => {
    const made = make();
    const known = interned.get(made.key) ?? made;
    interned.set(made.key, known);
    return known;
  });
}
