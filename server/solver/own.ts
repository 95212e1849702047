import type { Dynamic, Finger } from '../../grammar/tree';
import { COVERING_SLACK } from '../hand/constants';
import type { Hand } from '../hand/hand';
import { opening, reachOf } from '../hand/reach';
import { semitone } from '../music/pitch';
import type { EventSpec, Setup } from '../passage/passage';
import { fromNats, NEVER } from './cost';
import { doubts, offTemperament } from './doubtful';
import { EFFORT } from './effort';
import { ornamentOf } from './ornament';
import { gapBetween, type PlacedFinger, type Shape } from './shape';
import { speechCost } from './speech';
import type { TermName } from './terms';
import type { Way } from './way';

/** Terms of one state, in the solver's whole numbers. */
export type Terms = Partial<Record<TermName, number>>;

/** Is told a term and what it costs, in the solver's whole numbers; the same term may be told several times. */
export type TellTerm = (name: TermName, cost: number) => void;

/** What a shape costs by itself in an event, whatever comes before it and wherever the hand is, term by term. */
export function shapeTerms(shape: Shape, spec: EventSpec, setup: Setup, fifths = 0): Terms {
  const terms: Terms = {};
  const tell: TellTerm = (name, cost) => {
    if (cost > 0) terms[name] = (terms[name] ?? 0) + cost;
  };
  tellLasting(shape, setup, tell);
  tellAsked(shape, spec, setup, fifths, tell);
  return terms;
}

/** What the length and the loudness asked of a shape cost, and an ornament in a key of so many sharps (negative: flats). */
export function tellAsked({ ways }: Shape, spec: EventSpec, setup: Setup, fifths: number, tell: TellTerm): void {
  for (const way of ways) {
    tell('placement', speechCost(way, spec, spec.seconds, setup));
    tellBowing(way, spec, setup, tell);
    if (spec.ornament) tell('ornament', costOf(ornamentOf(way, spec, setup, fifths)?.cost ?? 0));
  }
}

/** What a shape costs in any event: the stretch between fingers that are down, how two of them stand, the kind of harmonic. */
export function tellLasting(shape: Shape, setup: Setup, tell: TellTerm): void {
  for (const way of shape.ways) tellHarmonic(way, shape, setup, tell);
  for (const { fingers } of shape.hands) {
    for (let i = 0; i < fingers.length; i++) {
      for (let j = i + 1; j < fingers.length; j++) {
        tell('stretch', costOf(EFFORT.stretch * openingBetween(fingers[i]!, fingers[j]!, setup) ** 2));
      }
    }
  }
  if (shape.hands.length > 1) tell('hop', costOf(EFFORT.halves.set + EFFORT.halves.moved * movedBetween(shape)));
  if (shape.barred) tell('covering', costOf(EFFORT.covering));
  if (isBeside(shape)) tell('beside', costOf(EFFORT.beside));
  if (isCrossed(shape)) tell('crossed', costOf(EFFORT.crossed));
  tell('doubtful', costOf(EFFORT.doubtful * doubts(shape.ways, setup)));
}

/** Of what would be gained nothing counts: a term is a burden. */
function costOf(nats: number): number {
  return nats > 0 ? fromNats(nats) : 0;
}

/** True where two fingers stand in one place of two strings. */
function isBeside({ hands }: Shape): boolean {
  return hands.some(({ fingers }) =>
    fingers.some((one, i) =>
      fingers.slice(i + 1).some((two) => one.stops === two.stops && Math.abs(one.mm - two.mm) <= COVERING_SLACK),
    ),
  );
}

/** Fingers that stand elsewhere in the second half of a chord than in its first. */
function movedBetween({ hands: [first, second] }: Shape): number {
  const before = new Map(first?.fingers.map(({ finger, mm }) => [finger, mm]));
  return (second?.fingers ?? []).filter(({ finger, mm }) => Math.abs((before.get(finger) ?? mm) - mm) > COVERING_SLACK).length;
}

/** True where a lower string sounds higher than another. Harmonics sound where they will. */
function isCrossed({ ways }: Shape): boolean {
  return ways.some((one) =>
    ways.some(
      (two) =>
        one.partial === 1 && two.partial === 1 && one.string > two.string && semitone(one.sounding) > semitone(two.sounding),
    ),
  );
}

/** What loudness asks of the bow, and plucking of the string. */
function tellBowing(way: Way, spec: EventSpec, setup: Setup, tell: TellTerm): void {
  const { faint, dry } = EFFORT.pizzicato;
  if (way.kind === 'stopped' && spec.plucked) {
    tell('height', costOf((dry * ((way.stop?.mm ?? 0) - setup.instrument.length / 2)) / 100));
  }
  if (way.kind === 'open' || way.kind === 'stopped') return;
  if (spec.plucked) tell('soft', costOf(faint * Math.max(0, way.partial - 3)));
  else {
    tell('soft', costOf(EFFORT.soft[spec.dynamic satisfies Dynamic] * Math.max(0, way.partial - 4)));
    tell('delicacy', costOf(EFFORT.delicacy * Math.max(0, way.partial - 2)));
  }
}

function tellHarmonic(way: Way, shape: Shape, setup: Setup, tell: TellTerm): void {
  if (way.kind === 'open' || way.kind === 'stopped') return;
  tell('height', costOf((EFFORT.height * ((way.touch?.mm ?? 0) - setup.instrument.length / 2)) / 100));
  if (way.kind === 'natural') tell('pitch', costOf(EFFORT.pitch * (offTemperament(way, setup) / 15) ** 2));
  if (way.interval) {
    tell('firmness', costOf(EFFORT.firmness[way.interval]));
    if (way.stop?.finger !== (setup.instrument.thumb ? 'T' : 1)) tell('stopper', costOf(EFFORT.stopper));
    if (isThird(way) && shape.ways.length === 1) tell('loneThird', costOf(EFFORT.loneThird));
  }
}

/** True for a major or minor third harmonic: between two fingers only a third apart. */
export function isThird(way: Way): boolean {
  return way.interval === 'third' || way.interval === 'minor-third';
}

function openingBetween(one: PlacedFinger, two: PlacedFinger, setup: Setup): number {
  const gap = gapBetween(one, two, setup);
  return gap ? opening(gap.reach, gap.along, gap.across) : 0;
}

/**
 * What it costs a shape that the hand is at a place, given where the first finger would fall on a finger's string there, mm; NEVER
 * where a finger can't get to its spot. What it costs to be out of the frame is a habit (see choice.ts); this is the span of the hand.
 */
export function reachCost(shape: Shape, firstFinger: (finger: PlacedFinger) => number, { hand }: Setup): number {
  let cost = 0;
  for (const { fingers } of shape.hands) {
    const down = fingers.find(({ finger }) => finger === 1);
    for (const placed of fingers) {
      const along = placed.mm - (down ? down.mm : firstFinger(placed));
      const nats = placed.finger === 1 ? 0 : reachingOut(placed.finger, along, down !== undefined, hand);
      if (nats === Number.POSITIVE_INFINITY) return NEVER;
      cost += fromNats(nats);
    }
  }
  return cost;
}

/** Of one finger `along` mm above the first. How close they can stand matters only where the first is down. */
function reachingOut(finger: Finger, along: number, down: boolean, hand: Hand): number {
  const [reach, apart] = finger === 'T' ? [reachOf(hand, 'T', 1), -along] : [reachOf(hand, 1, finger), along];
  if (!reach) return Number.POSITIVE_INFINITY;
  const open = opening(reach, down ? apart : Math.max(reach.least, apart), 0);
  return open === Number.POSITIVE_INFINITY ? open : EFFORT.farExtension * open ** 2;
}
