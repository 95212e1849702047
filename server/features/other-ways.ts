import { labelOf } from '../rules/spot';
import { alternatives } from '../solver/alternatives';
import type { Fingering, Solution } from '../solver/solution';
import type { Way } from '../solver/way';

/** Another way to play an event, and which of the solver's alternatives it is. */
export interface OtherWay {
  /** Index into what `alternatives` gives for the event. */
  readonly alternative: number;
  readonly fingering: Fingering;
  /** Nats more for the whole passage. */
  readonly extraCost: number;
  readonly label: string;
}

/**
 * The cheapest alternative at every other place of the fingerboard, and the one at the same place with other fingers:
 * a list of the fingers of one place would push the other places out of sight.
 */
export function otherWays(solution: Solution, event: number): readonly OtherWay[] {
  const seen = new Set<string>();
  return alternatives(solution, event).flatMap(({ fingering, extraCost }, alternative) => {
    const place = fingering.ways.map(placeOf).join('+');
    if (seen.has(place)) return [];
    seen.add(place);
    return [{ alternative, fingering, extraCost, label: labelOf(fingering) }];
  });
}

function placeOf({ string, kind, interval, touch }: Way): string {
  return `${string} ${kind} ${interval ?? (touch ? `${touch.k}/${touch.n}` : '')}`;
}
