import type { Span } from '../../grammar/tree';
import type { Action } from './actions';
import type { SolvedReading } from './reading';

/** Writes a motif out where it is used. */
export function motifActions(_reading: SolvedReading, _span: Span): readonly Action[] {
  return [];
}
