import type { Edit } from '../../grammar/tree';
import type { LogParams } from '../protocol/messages';
import type { Problem } from '../rules/rule';

/** A change that the user may choose at a place. */
export interface Action {
  readonly title: string;
  /** `fix` mends a problem, `rewrite` says the same or a chosen thing in other words, `fixAll` fixes all that is safe to fix. */
  readonly kind: 'fix' | 'rewrite' | 'fixAll';
  readonly edits: readonly Edit[];
  /** The problem it fixes. */
  readonly problem?: Problem;
  /** Counts an attempt in the player's file, which is another document, instead of editing this one. */
  readonly log?: Omit<LogParams, 'uri'>;
  /** The one that the editor may choose unasked. */
  readonly preferred?: boolean;
}
