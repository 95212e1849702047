import type { Manner } from '../../grammar/tree';

/** How often a way of sounding a note was tried slowly, the hand at rest before it, and how often it came out clean. */
export interface Attempts {
  readonly clean: number;
  readonly tried: number;
}

/** Attempts by what was tried: see `attemptKey`. */
export type Experience = Readonly<Record<string, Attempts>>;

/** `III natural 1/5`, `II artificial 1/4`, `I stopped`: string, kind, and the point of division of a harmonic. */
export function attemptKey(stringName: string, kind: Manner, node?: { readonly k: number; readonly n: number }): string {
  return node ? `${stringName} ${kind} ${node.k}/${node.n}` : `${stringName} ${kind}`;
}

/** What is believed of a chance: a Beta distribution, by its two counts (clean and failed, prior ones included). */
export interface Belief {
  readonly clean: number;
  readonly failed: number;
}

/**
 * How many attempts the model's word is worth before any are made. Assumption: after as many attempts as
 * this the player's own record and the model weigh the same.
 */
export const PRIOR_ATTEMPTS = 6;

/** The model is never so sure that attempts could not change its mind. */
const SUREST = 0.98;

/**
 * The chance that a way comes out clean after attempts at it: the model's chance (0 to 1) as prior, worth
 * `PRIOR_ATTEMPTS` attempts, updated by the record. Closed form: Beta is conjugate to counting (Laplace
 * 1774; Gelman et al., Bayesian Data Analysis, 2.1).
 */
export function beliefAfter(model: number, { clean, tried }: Attempts): Belief {
  const prior = Math.min(SUREST, Math.max(1 - SUREST, model));
  return { clean: prior * PRIOR_ATTEMPTS + clean, failed: (1 - prior) * PRIOR_ATTEMPTS + tried - clean };
}

/** Mean of a belief: the chance to reckon with. */
export function expected({ clean, failed }: Belief): number {
  return clean / (clean + failed);
}

/** Standard deviation of a belief: how far the chance may well be from what is expected. */
export function uncertainty({ clean, failed }: Belief): number {
  const all = clean + failed;
  return Math.sqrt((clean * failed) / (all * all * (all + 1)));
}

/**
 * Nats to add to the cost of landing so that a way tried before costs what the record says: minus the log
 * of the ratio of the updated chance to the model's. Negative where the player does better than the model.
 */
export function experienceCost(model: number, attempts: Attempts | undefined): number {
  if (!attempts) return 0;
  const before = expected(beliefAfter(model, { clean: 0, tried: 0 }));
  return Math.log(before / expected(beliefAfter(model, attempts)));
}
