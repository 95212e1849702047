import type { Span } from '../../grammar/tree';
import type { Settings } from '../protocol/settings';
import type { Action } from './action';
import { attemptActions } from './attempts';
import { formActions } from './form-actions';
import { motifActions } from './motif-actions';
import { pinActions } from './pin-actions';
import { fixAllAction, problemActions } from './problem-actions';
import type { SolvedReading } from './reading';
import { tempoActions } from './tempo-actions';

type Source = (reading: SolvedReading, span: Span, settings: Settings) => Iterable<Action>;

/** Where the actions of a place come from, by kind, in the order that they are listed. */
const SOURCES: Readonly<Record<Action['kind'], readonly Source[]>> = {
  fix: [problemActions],
  rewrite: [pinActions, formActions, tempoActions, motifActions, attemptActions],
  fixAll: [fixAllAction],
};

/** What can be done at a place. To fix all at once every problem's fixes must be worked out, so that is offered only where it is asked for. */
export function actions(...asked: Parameters<typeof actionSteps>): readonly Action[] {
  return [...actionSteps(...asked)];
}

/** The same, one after the other: whoever asks may stop in between. */
export function* actionSteps(
  reading: SolvedReading,
  span: Span,
  settings: Settings,
  kinds: readonly Action['kind'][] = ['fix', 'rewrite'],
): Generator<Action, void> {
  for (const source of kinds.flatMap((kind) => SOURCES[kind])) {
    for (const action of source(reading, span, settings)) if (action.edits.length > 0 || action.log) yield action;
  }
}
