import type { Property } from './properties';

/**
 * A short passage and how the trade would finger it. A case names what practically every violinist would accept, all of it: it is
 * written from the chair, never from what the solver happens to find.
 */
export interface Case {
  readonly name: string;
  /** A whole file in the passage language, or its music alone. */
  readonly passage: string;
  /** Fingerings to choose from, in the notation of `fingering.ts`; any one of them will do. Absent where only `holds` counts. */
  readonly accepted?: readonly string[];
  /** What must be true of the fingering besides. */
  readonly holds?: readonly Property[];
  /** Why, in a teacher's words, and where it comes from. */
  readonly why: string;
  /** `common practice, no source` unless a published work is known to teach just this. */
  readonly source: string;
}

export const TRADE = 'common practice, no source';
