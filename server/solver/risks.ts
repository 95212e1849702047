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
  // The notes of the stretch so far, and what each takes off; asked after every key, so nothing is made for a note.
  const within = new Int32Array(STRETCH);
  const logs = new Float64Array(STRETCH);
  let nats = 0;
  let [from, to, most] = [-1, -1, Number.NEGATIVE_INFINITY];
  let played = 0;
  for (let event = 0; event < events.length; event++) {
    const solved = events[event];
    if (!solved || solved.fingering.ways.length === 0) continue;
    const at = played++ % STRETCH;
    const log = Math.log(solved.chance);
    nats -= log;
    if (played > STRETCH) nats += logs[at]!;
    [within[at], logs[at]] = [event, log];
    if (nats > most) [from, to, most] = [within[played < STRETCH ? 0 : played % STRETCH]!, event, nats];
  }
  return played === 0 ? undefined : { from, to, chance: Math.exp(-most) };
}
