import { chanceTogether } from '../hand/chance';
import { missHeard } from '../hand/intonation';
import type { EventSpec, Setup } from '../passage/passage';
import { toNats } from './cost';
import { type Landing, missed, sharpness, varianceOf } from './landing';
import { landingAfter } from './move';
import type { Step } from './read';
import { landingsOf } from './shape';
import { speechChance, speechCost } from './speech';
import type { StateSet } from './states';
import { targetOf } from './timed-facts';
import type { Way } from './way';

/** What one event's coming out clean hangs on, each a chance from 0 to 1; together they multiply. */
export interface Chances {
  /** That the fingers of each note land, and that each note then speaks. */
  readonly landing: readonly number[];
  readonly speech: readonly number[];
  /** That finger and bow come together. */
  readonly together: number;
}

/** The chances of one event after a step, its note lasting `seconds`. They don't hang on what a cost makes of them. */
export function chancesOf(states: StateSet, state: number, step: Step, seconds: number): Chances {
  const { spec, setup } = states;
  const { ways, landings } = states.shapes[states.shape[state]!]!;
  const moved = landingAfter(step.distance, step.seconds, setup);
  const landing = step.kept.map((down, note) => (down ? 1 : landed(ways[note]!, landings[note]!, seconds, moved, setup)));
  const speech = ways.map((way) => chance(speechCost(way, spec, seconds, setup)));
  const fingered = step.bowed ? ways.filter(({ kind }, note) => kind !== 'open' && !step.kept[note]).length : 0;
  return { landing, speech, together: chanceTogether(setup.hand.skill, seconds) ** fingered };
}

/**
 * How far off the stopped notes of an event come after a step, cents: the standard deviation of the pitch that is heard over the
 * note, of the least sure of them. Undefined where no finger that stops a plain note lands.
 */
export function centsOff(states: StateSet, state: number, step: Step): number | undefined {
  const { spec, setup } = states;
  const { ways, landings } = states.shapes[states.shape[state]!]!;
  const moved = landingAfter(step.distance, step.seconds, setup);
  const off = landings.flatMap((some, note) =>
    ways[note]!.kind !== 'stopped' || step.kept[note]
      ? []
      : some
          .filter(({ kind }) => kind === 'stop')
          .map((one) => Math.sqrt(varianceOf(one, setup.hand.skill) + moved) / one.perCent),
  );
  return off.length > 0 ? Math.max(...off) * missHeard(spec.seconds) : undefined;
}

/** Chance that other ways of an event would come out clean, with a bow of their own, the hand coming from `distance` mm away in `moveSeconds`. */
export function chanceOfWays(
  ways: readonly Way[],
  { notes, seconds, dynamic, plucked }: EventSpec,
  distance: number,
  moveSeconds: number,
  setup: Setup,
): number {
  const moved = landingAfter(distance, moveSeconds, setup);
  const doubled = notes.length > 1;
  const each = ways.map(
    (way) =>
      landed(way, landingsOf(way, setup.instrument.length, 0, doubled), seconds, moved, setup) *
      speechChance(way, doubled, dynamic, seconds, setup, plucked),
  );
  const fingered = ways.filter(({ kind }) => kind !== 'open').length;
  return product(each) * chanceTogether(setup.hand.skill, seconds) ** fingered;
}

function landed(way: Way, landings: readonly Landing[], seconds: number, moved: number, setup: Setup): number {
  const { tolerance, variance, spacing } = targetOf(way, landings, seconds, setup);
  return chance(spacing + missed(tolerance, sharpness(Math.sqrt(variance + moved))));
}

/** Their product: the chance that the event comes out clean. */
export function cleanOf({ landing, speech, together }: Chances): number {
  return product(landing) * product(speech) * together;
}

export function product(chances: readonly number[]): number {
  return chances.reduce((all, one) => all * one, 1);
}

function chance(cost: number): number {
  return Math.exp(-toNats(cost));
}
