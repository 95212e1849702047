/**
 * Inside the solver a cost is a whole number of millionths of a nat, so sums are exact, ties are true
 * ties, and a re-solve after an edit can be compared number for number with one from scratch.
 */
export const NAT = 1_000_000;

/** «Not possible». Three of them still add up within 32 bits. */
export const NEVER = 1 << 29;

/** The dearest a single term can get, nats: well past any sensible choice, well below NEVER when summed. */
const DEAREST = 60;

/** Nats to the solver's whole numbers; anything infinite is NEVER. */
export function fromNats(nats: number): number {
  return Number.isFinite(nats) ? Math.round(Math.min(nats, DEAREST) * NAT) : NEVER;
}

export function toNats(cost: number): number {
  return cost / NAT;
}
