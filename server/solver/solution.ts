import type { Breaking } from '../../grammar/marks';
import type { Passage, Pins } from '../passage/passage';
import type { TermName } from './terms';
import type { Way } from './way';
import type { Work } from './work';

/**
 * A fingering for a whole passage with the least cost, exact. Costs are in nats: minus the log of a
 * chance, plus effort. An event that can't be played is left out (`undefined`, with its reason) and
 * the rest is solved around it, so one impossible note does not silence the others.
 */
export interface Solution {
  readonly passage: Passage;
  readonly events: readonly (SolvedEvent | undefined)[];
  readonly unplayables: readonly Unplayable[];
  readonly cost: number;
  /** Chance that every note speaks and is in tune, 0 to 1; 0 when an event is unplayable. */
  readonly clean: number;
  /** Index of the event with the largest share of the cost; -1 in an empty passage. */
  readonly hardest: number;
  /** The solver's own tables, for what is asked later (alternatives.ts, best.ts, ceiling.ts). */
  readonly work: Work;
}

/** One event as fingered. Its terms sum to its share of the passage's cost; the shares sum to the whole. */
export interface SolvedEvent {
  readonly fingering: Fingering;
  readonly cost: number;
  readonly terms: Readonly<Partial<Record<TermName, number>>>;
  /** Chance that each note speaks in tune, one for each note. */
  readonly speaks: readonly number[];
  /** Chance that the event comes out clean: that all its notes do, finger and bow together. */
  readonly chance: number;
}

/** How all the notes of one event are played together. */
export interface Fingering {
  readonly ways: readonly Way[];
  /** Hand place: where the first finger falls or would fall, mm from the nut, and the position's number as players count it. */
  readonly hand: { readonly mm: number; readonly position: number };
  /** One finger covers two neighbouring strings. */
  readonly barred: boolean;
  /** Of a chord. */
  readonly breaking?: Breaking;
  /** The fingers of its second half are set while the bow goes over to it. */
  readonly inHalves?: true;
}

/** Another fingering of one event, with what choosing it costs the whole passage beyond the best, nats. */
export interface Alternative {
  readonly fingering: Fingering;
  readonly extraCost: number;
  /** Where the hand comes from on the cheapest path through it, mm; undefined where nothing comes before. */
  readonly from?: number | undefined;
}

/** Why a passage has no fingering: the event, the rule, and what would free it. */
export interface Unplayable {
  readonly event: number;
  readonly reason: UnplayableReason;
  readonly relaxations: readonly Relaxation[];
}

export type UnplayableReason =
  /** No string can sound it, even with every hint and the hand's limits lifted. */
  | { readonly kind: 'out-of-range'; readonly note: number }
  /** It must be a harmonic, and none with any tolerance left gives this pitch. */
  | { readonly kind: 'no-harmonic'; readonly note: number }
  /** Hints rule out every way; `hints` are the ones whose removal, each alone, frees it (all of them where only together). */
  | { readonly kind: 'hints'; readonly note: number; readonly hints: readonly (keyof Pins)[] }
  /** Every way asks for more than the hand has; this is the one that asks least too much, mm. */
  | { readonly kind: 'stretch'; readonly fingers: readonly [string, string]; readonly asked: number; readonly reach: number }
  | { readonly kind: 'same-string' }
  | { readonly kind: 'not-neighbours' }
  /** The fingers would have to cross, or one be in two places. */
  | { readonly kind: 'fingers' }
  /** A held note can't be kept while the next one is fingered. */
  | { readonly kind: 'held' };

/** Something to give up that would free the event. */
export type Relaxation =
  /** Play it like this: other hints, or another way to the same sounding pitch. */
  | { readonly kind: 'fingering'; readonly fingering: Fingering }
  /** The same an octave (or more) lower or higher. */
  | { readonly kind: 'octaves'; readonly note: number; readonly by: number }
  /** A hand with this reach, mm. */
  | { readonly kind: 'reach'; readonly fingers: readonly [string, string]; readonly reach: number }
  /** Stopped instead of a harmonic, or the other way round. */
  | { readonly kind: 'stopped'; readonly note: number }
  | { readonly kind: 'harmonic'; readonly note: number };
