import type { Passage } from '../passage/passage';
import type { TermName } from './terms';
import type { Way } from './way';

/**
 * A fingering for a whole passage with the least cost, exact. Costs are in nats: minus the log of a
 * chance, plus effort. An event that can't be played is left out (`undefined`, with its deadlock) and
 * the rest is solved around it, so one impossible note does not silence the others.
 */
export interface Solution {
  readonly passage: Passage;
  readonly events: readonly (SolvedEvent | undefined)[];
  readonly deadlocks: readonly Deadlock[];
  readonly cost: number;
  /** Chance that every note speaks and is in tune, 0 to 1; 0 when there is a deadlock. */
  readonly clean: number;
  /** Index of the event with the largest share of the cost; -1 in an empty passage. */
  readonly hardest: number;
}

/** One event as fingered. Its terms sum to its share of the passage's cost; the shares sum to the whole. */
export interface SolvedEvent {
  readonly fingering: Fingering;
  readonly cost: number;
  readonly terms: Readonly<Partial<Record<TermName, number>>>;
  /** Chance that each note speaks in tune, one for each note. */
  readonly speaks: readonly number[];
}

/** How all the notes of one event are played together. */
export interface Fingering {
  readonly ways: readonly Way[];
  /** Hand place: where the first finger falls or would fall, mm from the nut, and the position's number as players count it. */
  readonly hand: { readonly mm: number; readonly position: number };
  /** One finger covers two neighbouring strings. */
  readonly barred: boolean;
}

/** Another fingering of one event, with what choosing it costs the whole passage beyond the best, nats. */
export interface Alternative {
  readonly fingering: Fingering;
  readonly extraCost: number;
}

/** Why a passage has no fingering: the event, the rule, and what would free it. */
export interface Deadlock {
  readonly event: number;
  readonly reason: DeadlockReason;
  readonly relaxations: readonly Relaxation[];
}

export type DeadlockReason =
  /** No string can sound it, even with every hint and the hand's limits lifted. */
  | { readonly kind: 'out-of-range' }
  /** Hints rule out every way; `hints` are the ones whose removal frees it. */
  | { readonly kind: 'hints'; readonly note: number; readonly hints: readonly string[] }
  /** Every way asks for more than the hand has. */
  | { readonly kind: 'stretch'; readonly fingers: readonly [string, string]; readonly asked: number; readonly reach: number }
  /** It must be a harmonic, and none with any tolerance left gives this pitch. */
  | { readonly kind: 'no-harmonic'; readonly note: number }
  | { readonly kind: 'same-string' }
  | { readonly kind: 'not-neighbours' }
  /** A held note can't be kept while the next one is fingered. */
  | { readonly kind: 'held' };

export interface Relaxation {
  /** In a player's words: «play E6 on string III instead». */
  readonly title: string;
  readonly fingering?: Fingering;
}
