import { t } from '../l10n/translate';
import type { ScenePassage } from '../protocol/scene';
import { labelOf } from '../rules/spot';
import { alternatives } from '../solver/alternatives';
import type { Solution } from '../solver/solution';
import type { Way } from '../solver/way';
import { SURE } from './attempts';
import type { HeardTake } from './verdict';

/** Pieces of advice at most, and what another way may cost the passage at most, nats: dearer ones are seen in the preview. */
const MOST = 3;
const DEAR = 1.5;

/** Events of which at least half of what is surely heard failed, what failed most first. */
export function mostlyFailed(takes: readonly HeardTake[]): readonly number[] {
  const tried = new Map<number, { failed: number; all: number }>();
  for (const { event, verdict, sure } of takes.flatMap(({ notes }) => notes)) {
    if (verdict === 'not-judged' || sure < SURE) continue;
    const { failed, all } = tried.get(event) ?? { failed: 0, all: 0 };
    tried.set(event, { failed: failed + (verdict === 'spoke' ? 0 : 1), all: all + 1 });
  }
  return [...tried]
    .filter(([, { failed, all }]) => failed > 0 && 2 * failed >= all)
    .sort(([a, one], [b, other]) => other.failed - one.failed || a - b)
    .map(([event]) => event);
}

/** Where most of what was tried failed: the cheapest other way to play it, what failed most first. */
export function adviceOf(takes: readonly HeardTake[], solution: Solution, { events }: ScenePassage): readonly string[] {
  return mostlyFailed(takes)
    .flatMap((event) => {
      const here = placesOf(solution.events[event]?.fingering.ways ?? []);
      const other = alternatives(solution, event).find(({ fingering }) => placesOf(fingering.ways) !== here);
      const at = events[event];
      return other && at && other.extraCost <= DEAR
        ? [
            t('Bar {bar}, beat {beat}: try {fingering} instead (+{cost}).', {
              bar: at.bar,
              beat: at.beat,
              fingering: labelOf(other.fingering),
              cost: other.extraCost.toFixed(2),
            }),
          ]
        : [];
    })
    .slice(0, MOST);
}

/** Where notes are played, whatever the fingers. */
function placesOf(ways: readonly Way[]): string {
  return ways.map(({ string, kind, interval, touch }) => `${string} ${kind} ${interval ?? ''} ${touch?.k}/${touch?.n}`).join();
}
