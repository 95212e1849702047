import { heardOf, tellChoice } from '../../server/solver/choice';
import { toNats } from '../../server/solver/cost';
import { kept, landingAfter, landingCost, moveSeconds, shifted } from '../../server/solver/move';
import { shapeTerms } from '../../server/solver/own';
import type { StateSet } from '../../server/solver/states';
import { CLASSES, DOWN, type Occasion, occasionOf, STAYS, tellDistance, tellStep, UP } from '../../server/solver/step';
import { createTables } from '../../server/solver/tables';
import type { Chosen } from './data';
import type { Run } from './score';

/**
 * The solver's own states and steps, taken apart into habits (which are counted, and weighed by the fit) and what is physical
 * (chances of landing, stretches), so that a fit and a solve speak of one lattice.
 */
export interface Bare {
  readonly columns: readonly Column[];
}

interface Column {
  readonly states: StateSet;
  /** Of every state: its list of habits, and its physical cost, nats. */
  readonly lists: Int32Array;
  readonly physical: Float64Array;
  /** Of every pair of states of the event before and this one (row by row): its list, -1 where the step can't be; and the chance that the fingers land, to the power of `SHARPNESS`. Empty for the first. */
  readonly steps: Int32Array;
  readonly landing: Float64Array;
  /** Of every player, the states that agree with what was chosen; undefined where nothing is known. */
  readonly chosen: readonly (readonly number[] | undefined)[];
  /** Of every state, the share of players who chose another string or finger; 0 where nothing is known. */
  readonly apart: Float64Array;
}

/** How sharply players tell costs apart, per nat. Assumption: it sets the unit in which habits are weighed against chances of landing. */
export const SHARPNESS = 7;

/** Lists of habits, each once. */
export class Lists {
  readonly all: (readonly number[])[] = [];
  private readonly known = new Map<string, number>();

  of(habits: readonly number[]): number {
    const key = String.fromCharCode(...habits);
    let list = this.known.get(key);
    if (list === undefined) {
      list = this.all.push([...habits]) - 1;
      this.known.set(key, list);
    }
    return list;
  }
}

/** Positions of a shift that are told apart. */
const FAR = 5;

export class Taker {
  private readonly tables = createTables();
  private readonly steps = new Map<string, Int32Array>();

  constructor(private readonly lists: Lists) {}

  bare({ passage, chosen }: Run): Bare {
    const columns: Column[] = [];
    let before: StateSet | undefined;
    for (let event = 0; event < passage.events.length; event++) {
      const states = this.tables.states(passage, event);
      columns.push({
        states,
        lists: this.choices(states),
        physical: Float64Array.from({ length: states.size }, (_, state) => this.physical(states, state)),
        ...(before ? this.between(before, states) : { steps: new Int32Array(0), landing: new Float64Array(0) }),
        chosen: chosen[event]!.map((one) => one && placed(states, one, agreeing(states, one))),
        apart: apartFrom(states, chosen[event]!),
      });
      before = states;
    }
    return { columns };
  }

  private choices(states: StateSet): Int32Array {
    const heard = heardOf(states.spec, states.around);
    return Int32Array.from({ length: states.size }, (_, state) => {
      const told: number[] = [];
      tellChoice(states, state, heard, (habit) => told.push(habit));
      return this.lists.of(told);
    });
  }

  private physical(states: StateSet, state: number): number {
    const terms = shapeTerms(states.shapes[states.shape[state]!]!, states.spec, states.setup, states.around.fifths);
    return toNats(states.there[state]! + Object.values(terms).reduce((sum, cost) => sum + cost, 0));
  }

  private between(from: StateSet, to: StateSet): Pick<Column, 'steps' | 'landing'> {
    const steps = new Int32Array(from.size * to.size);
    const landing = new Float64Array(steps.length);
    const listed = this.listed(occasionOf(from, to));
    const seconds = [moveSeconds(from.spec, false), moveSeconds(from.spec, true)];
    let at = 0;
    for (let i = 0; i < from.size; i++) {
      const a = from.shape[i]!;
      const free = from.facts.fingers[a] === 0;
      for (let j = 0; j < to.size; j++, at++) {
        const [left, reached] = [from.place[i]!, to.place[j]!];
        const far = Math.max(-FAR, Math.min(FAR, shifted(to.positions, left, reached)));
        const list = listed(from.facts.class[a]!, to.facts.class[to.shape[j]!]!, free, far);
        steps[at] = list;
        if (list < 0) continue;
        const sharp = landingAfter(Math.abs(to.places[reached]! - from.places[left]!), seconds[Number(free)]!, to.setup);
        let cost = 0;
        for (const note of [0, 1]) {
          if (left !== reached || !kept(from.facts, a, to.facts, to.shape[j]!, note))
            cost += landingCost(to.facts, to.shape[j]!, note, sharp);
        }
        landing[at] = Math.exp(-SHARPNESS * toNats(cost));
      }
    }
    return { steps, landing };
  }

  /** The list of an occasion's step by class before, class after, whether the hand is free, and how far it shifts. */
  private listed(occasion: Occasion): (from: number, to: number, free: boolean, far: number) => number {
    const key = JSON.stringify(occasion);
    let made = this.steps.get(key);
    if (!made) {
      made = new Int32Array(CLASSES * CLASSES * 2 * (2 * FAR + 1)).fill(NOT_YET);
      this.steps.set(key, made);
    }
    const known = made;
    return (from, to, free, far) => {
      const at = ((from * CLASSES + to) * 2 + Number(free)) * (2 * FAR + 1) + far + FAR;
      if (known[at] === NOT_YET) {
        const told: number[] = [];
        const tell = (habit: number) => told.push(habit);
        const can = tellStep(occasion, from, to, far === 0 ? STAYS : far > 0 ? UP : DOWN, tell);
        tellDistance(far, free, tell);
        known[at] = can ? this.lists.of(told) : -1;
      }
      return known[at]!;
    };
  }
}

/** A list that nobody has asked for. */
const NOT_YET = -2;

/** The states of an event with the strings and fingers that a player chose. */
function agreeing({ shape, shapes }: StateSet, chosen: readonly Chosen[]): readonly number[] {
  return [...shape.keys()].filter((state) =>
    shapes[shape[state]!]!.ways.every(
      (way, note) => 3 - way.string === chosen[note]!.string && ((way.stop ?? way.touch)?.finger ?? 0) === chosen[note]!.finger,
    ),
  );
}

/** Of those, the ones in the position that was written down, where some are. */
function placed(
  { positions, place }: StateSet,
  chosen: readonly Chosen[],
  states: readonly number[],
): readonly number[] | undefined {
  if (states.length === 0) return undefined;
  const position = chosen.length === 1 && chosen[0]!.finger > 0 ? chosen[0]!.position : undefined;
  const there = states.filter((state) => positions[place[state]!] === position);
  return there.length > 0 ? there : states;
}

function apartFrom(states: StateSet, chosen: Run['chosen'][number]): Float64Array {
  const known = chosen.flatMap((one) => (one ? [agreeing(states, one)] : []));
  const apart = new Float64Array(states.size).fill(known.length > 0 ? 1 : 0);
  for (const agree of known) for (const state of agree) apart[state]! -= 1 / known.length;
  return apart;
}
