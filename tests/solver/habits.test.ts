import { describe, expect, it } from 'vitest';
import { heardOf, type Tell, tellChoice } from '../../server/solver/choice';
import { FAMILIES, FAMILY_NAMES, HABITS } from '../../server/solver/habits';
import { LEARNED } from '../../server/solver/learned';
import { CLASSES, MOVES, occasionOf, tellDistance, tellStep } from '../../server/solver/step';
import { createTables } from '../../server/solver/tables';
import { line, passage } from './build';

const cost = (name: string) => LEARNED[name]![0];

describe('the table of habits', () => {
  it('has a cost for every choice, none below nothing, the cheapest of each family at nothing', () => {
    expect(Object.keys(LEARNED)).toEqual([...HABITS]);
    for (const name of FAMILY_NAMES) {
      const costs = FAMILIES[name].choices.map((choice) => cost(`${name}: ${choice}`));
      expect(Math.min(...costs), name).toBe(0);
      expect(costs.every(Number.isFinite), name).toBe(true);
    }
  });

  it('is told one choice of the same families by every state of an event, and by every step between two events', () => {
    const made = passage(line('A4 B4 C5 E5 E5 A5+C5 A4 D5 E6 A5'));
    const tables = createTables();
    for (const event of made.events.keys()) {
      const states = tables.states(made, event);
      const told = Array.from({ length: states.size }, (_, state) =>
        families((tell) => tellChoice(states, state, heardOf(states.spec, states.around), tell)),
      );
      for (const one of told) expect(one).toEqual(told[0]);
      expect(new Set(told[0]).size).toBe(told[0]!.length);
      if (event === 0) continue;
      const occasion = occasionOf(tables.states(made, event - 1), states);
      const steps = MOVES.flatMap((move) =>
        Array.from({ length: Math.ceil((CLASSES * CLASSES) / 7) }, (_, n) => {
          let can = true;
          const told = families((tell) => {
            can = tellStep(occasion, Math.floor((7 * n) / CLASSES), (7 * n) % CLASSES, move, tell);
            tellDistance(move === 0 ? 0 : 2, false, tell);
          });
          return can ? [told] : [];
        }).flat(),
      );
      for (const one of steps) expect(one).toEqual(steps[0]);
      expect(new Set(steps[0]).size).toBe(steps[0]!.length);
    }
  });
});

/** The families of what is told, in order. */
function families(telling: (tell: Tell) => void): readonly string[] {
  const told: string[] = [];
  telling((habit) => told.push(HABITS[habit]!.slice(0, HABITS[habit]!.indexOf(':'))));
  return told;
}

describe('common practice, no source — what was learned from players is what teachers say', () => {
  /** All that a note of middling length on the A string says of the hand's place, in a moderate passage. */
  const place = (position: string, height: string) =>
    cost(`position: ${position}`) + cost(`stringHeight: II, ${height}`) + cost(`paceHeight: moderate, ${height}`);

  it('first position comes before half position and second', () => {
    expect(place('1st', 'low')).toBeLessThan(place('half', 'low'));
    expect(place('1st', 'low')).toBeLessThan(place('2nd', 'low'));
  });

  it('third position comes before second and before those above it', () => {
    expect(place('3rd', '3rd-4th position')).toBeLessThan(place('2nd', 'low'));
    expect(place('3rd', '3rd-4th position')).toBeLessThan(place('4th', '3rd-4th position'));
    expect(place('3rd', '3rd-4th position')).toBeLessThan(place('7th', '5th-7th position'));
  });

  it('shifts mind the distance less than that there is one, and are easier after a silence', () => {
    expect(cost('shiftRest: long')).toBeLessThan(cost('shiftRest: no'));
  });

  it('an open string is welcome on a short note and unwelcome on a long one', () => {
    expect(cost('openLength: under 0.25 s')).toBeLessThan(cost('openLength: longer'));
  });

  it('the same finger hopping along its string is dearest on fast notes', () => {
    expect(cost('sameFinger: otherwise')).toBeLessThan(cost('sameFinger: semitone, short'));
  });
});
