import Fraction from 'fraction.js';
import { pitchName } from '../../music/pitch';
import type { Losses } from './losses';
import type { Grace, Measure } from './measures';
import type { Chord } from './written-note';

const USUAL = new Fraction(1, 32);

/**
 * The chords of a measure with its grace notes written out, for they too must be fingered. Each is a
 * 1/32, or shorter where all of one group would take more than half of the note that gives them
 * their time: the one after them, or at the end of a bar and before rests the one before.
 */
export function withGraces(measure: Measure, losses: Losses): readonly Chord[] {
  const chords = [...measure.chords];
  for (const group of grouped(measure.graces)) {
    const first = group[0] as Grace;
    const { voice } = first.chord;
    const names = group.flatMap((g) => g.chord.notes.map((n) => pitchName(n.pitch))).join(' ');
    const after = chords.findIndex((c) => c.voice === voice && c.notes.length > 0 && c.onset.equals(first.onset));
    const before = chords.findLastIndex((c) => c.voice === voice && c.notes.length > 0 && c.onset.compare(first.onset) < 0);
    const giver = chords[after >= 0 ? after : before];
    if (!giver) {
      losses.notesLeftOut(measure.label, 'grace notes that no note stands beside', names);
      continue;
    }
    const one = lengthOf(giver.duration, group.length);
    const all = one.mul(group.length);
    const start = after >= 0 ? giver.onset : giver.onset.add(giver.duration).sub(all);
    const written = group.map((g, i) => ({ ...g.chord, onset: start.add(one.mul(i)), duration: one }));
    const rest: Chord = { ...giver, duration: giver.duration.sub(all), onset: after >= 0 ? giver.onset.add(all) : giver.onset };
    if (after >= 0) chords.splice(after, 1, ...written, rest);
    else chords.splice(before, 1, rest, ...written);
    const from = after >= 0 ? 'after' : 'before';
    losses.changed(
      measure.label,
      `grace notes written out, in time taken from the note ${from} them`,
      `${names} as ${one.toFraction()} each`,
    );
  }
  return chords;
}

function grouped(graces: readonly Grace[]): readonly (readonly Grace[])[] {
  const groups = new Map<string, Grace[]>();
  for (const grace of graces) {
    if (grace.chord.notes.length === 0) continue;
    const key = `${grace.chord.voice} ${grace.onset.toFraction()}`;
    const group = groups.get(key);
    if (group) group.push(grace);
    else groups.set(key, [grace]);
  }
  return [...groups.values()];
}

function lengthOf(giver: Fraction, count: number): Fraction {
  let one = USUAL;
  while (one.mul(2 * count).compare(giver) > 0) one = one.div(2);
  return one;
}
