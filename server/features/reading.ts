import type { Tree } from '../../grammar/tree';
import type { Resolved } from '../passage/resolve';
import type { Problem } from '../rules/rule';
import type { Solution } from '../solver/solution';

/** One version of a text as far as it can be read without fingering it. */
export interface Reading {
  readonly tree: Tree;
  readonly resolved: Resolved;
  readonly problems: readonly Problem[];
}

/** A reading with every passage fingered: one solution for each of `resolved.passages`, in the same order. */
export interface SolvedReading extends Reading {
  readonly solutions: readonly Solution[];
}
