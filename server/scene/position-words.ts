import type { Finger } from '../../grammar/tree';
import { handPlaces, isBetween, nearestPlace, placeName, THUMB_PLACE } from '../hand/places';
import type { Instrument } from '../instrument/instrument';
import { t } from '../l10n/translate';
import type { Fingering, Solution } from '../solver/solution';

/** Where the hand is at an event, as players of the instrument say it. */
export interface PositionWords {
  /** `1st position`, `upper 3rd position`, `1st position, extended`, `thumb position`. */
  readonly words: string;
  /** The finger before which an `x` is printed: with it the hand opens. Cello only. */
  readonly extends?: Finger;
}

/** Fingered events to either side that are looked at for what the hand does there. */
const AROUND = 24;

/** Undefined where nothing is fingered. */
export function positionWords(solution: Solution, event: number): PositionWords | undefined {
  const fingering = solution.events[event]?.fingering;
  if (!fingering || !isFingered(fingering)) return undefined;
  const { instrument } = solution.passage.setup;
  if (instrument.thumb) return cellistsWords(solution, event, instrument);
  return { words: t('{place} position', { place: placeName(placeOf(fingering, instrument), instrument.family) }) };
}

/** The same for one fingering by itself, whatever stands around it. */
export function fingeringPosition({ hand }: Fingering, instrument: Instrument): string {
  return t('{place} position', { place: placeName(nearestPlace(handPlaces(instrument), hand.mm), instrument.family) });
}

/**
 * A cellist's open hand is one shape with two names (see hand/cello-frame.ts): in a position that has a name of its own the first
 * finger has gone back from it; between two positions it has stayed behind, and the position below is extended.
 */
function cellistsWords(solution: Solution, event: number, instrument: Instrument): PositionWords {
  const { run, own } = whileHandStays(solution, event, instrument);
  const place = placeOf(run[own]!, instrument);
  if (place >= THUMB_PLACE || run.some((each) => hasFinger(each, 'T'))) return { words: t('thumb position') };
  const back = run.map((each) => firstFingerIsBack(each, place, instrument));
  const name = (at: number) => t('{place} position', { place: placeName(at, 'cello') });
  if (!isBetween(place, 'cello')) {
    if (!back[own]) return { words: name(place) };
    return { words: t('{position}, first finger back', { position: name(place) }), ...(!back[own - 1] && { extends: 1 }) };
  }
  if (!back.includes(true) || run.some((each, i) => hasFinger(each, 1) && !back[i])) return { words: name(place) };
  const opens = run.findIndex((each) => !hasFinger(each, 1)) === own;
  const finger = opens ? fingersOf(run[own]!)[0] : undefined;
  return { words: t('{position}, extended', { position: name(place - 1) }), ...(finger !== undefined && { extends: finger }) };
}

/** The fingerings around an event for which the hand stays, and which of them is the event's own. */
function whileHandStays(solution: Solution, event: number, instrument: Instrument): { run: Fingering[]; own: number } {
  const here = solution.events[event]!.fingering;
  const place = placeOf(here, instrument);
  const towards = (step: 1 | -1): Fingering[] => {
    const found: Fingering[] = [];
    for (let i = event + step; found.length < AROUND; i += step) {
      const fingering = solution.events[i]?.fingering;
      if (!fingering) break;
      if (!isFingered(fingering)) continue;
      if (placeOf(fingering, instrument) !== place) break;
      found.push(fingering);
    }
    return found;
  };
  const before = towards(-1).reverse();
  return { run: [...before, here, ...towards(1)], own: before.length };
}

function placeOf({ hand }: Fingering, instrument: Instrument): number {
  return nearestPlace(handPlaces(instrument), hand.mm);
}

function isFingered(fingering: Fingering): boolean {
  return fingersOf(fingering).length > 0;
}

function fingersOf({ ways }: Fingering): readonly Finger[] {
  return ways.flatMap(({ stop, touch }) => [stop, touch].flatMap((at) => (at ? [at.finger] : [])));
}

function hasFinger(fingering: Fingering, finger: Finger): boolean {
  return fingersOf(fingering).includes(finger);
}

function firstFingerIsBack({ ways }: Fingering, place: number, instrument: Instrument): boolean {
  const places = handPlaces(instrument);
  return ways.some(({ stop, touch }) =>
    [stop, touch].some((at) => at?.finger === 1 && nearestPlace(places, at.mm) === place - 1),
  );
}
