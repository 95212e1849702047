import type { SceneAlternative } from '../protocol/scene';
import { labelOf } from '../rules/spot';
import { sceneAlternative } from '../scene/scene';
import { alternatives } from '../solver/alternatives';
import type { Fingering, Solution } from '../solver/solution';
import type { Way } from '../solver/way';
import type { SolvedReading } from './reading';

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

/** The preview has room for this many. */
const MOST_SHOWN = 8;

/** The same as the preview draws them; none where there is no such event. */
export function otherScenes({ solutions }: SolvedReading, passage: number, event: number): readonly SceneAlternative[] {
  const solution = solutions[passage];
  const spec = solution?.passage.events[event]?.spec;
  if (!solution || !spec) return [];
  return otherWays(solution, event)
    .slice(0, MOST_SHOWN)
    .map(({ alternative, fingering, extraCost }) => sceneAlternative({ fingering, extraCost }, alternative, spec));
}

function placeOf({ string, kind, interval, touch }: Way): string {
  return `${string} ${kind} ${interval ?? (touch ? `${touch.k}/${touch.n}` : '')}`;
}
