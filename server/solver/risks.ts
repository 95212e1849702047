import { STRETCH } from './ceiling';
import type { Solution } from './solution';

/** A note that comes out less often than this is a spot at risk. Assumption. */
const AT_RISK = 0.95;

/** The spots of a passage that most often fail, the worst first: indices of events. */
export function spotsAtRisk({ events }: Solution, most = 3): readonly number[] {
  return events
    .flatMap((solved, event) => (solved && solved.chance < AT_RISK ? [{ event, chance: solved.chance }] : []))
    .sort((a, b) => a.chance - b.chance || a.event - b.event)
    .slice(0, most)
    .map(({ event }) => event);
}

/** How many spots are at risk. */
export function countAtRisk({ events }: Solution): number {
  return events.reduce((count, solved) => count + (solved && solved.chance < AT_RISK ? 1 : 0), 0);
}

/** True for a passage that is too long to be thought of as one run: its spots say more than the product of all its chances. */
export function isLong({ passage }: Solution): boolean {
  return passage.events.filter(({ spec }) => spec.notes.length > 0).length > STRETCH;
}

/** The stretch of a passage that least often comes out clean: its first and last event, and how often. Undefined where nothing is played. */
export function leastSureStretch({
  events,
}: Solution): { readonly from: number; readonly to: number; readonly chance: number } | undefined {
  const played = events.flatMap((solved, event) =>
    solved && solved.fingering.ways.length > 0 ? [{ event, chance: solved.chance }] : [],
  );
  let nats = 0;
  let least: { from: number; to: number; nats: number } | undefined;
  for (const [at, { event, chance }] of played.entries()) {
    nats -= Math.log(chance);
    if (at >= STRETCH) nats += Math.log(played[at - STRETCH]!.chance);
    if (!least || nats > least.nats) least = { from: played[Math.max(0, at - STRETCH + 1)]!.event, to: event, nats };
  }
  return least && { from: least.from, to: least.to, chance: Math.exp(-least.nats) };
}
