import { notesByTurns } from '../../grammar/strokes';
import type { DurationItem, EventItem, GroupItem } from '../../grammar/tree';
import { exactDuration } from '../music/choice';
import { BY_TURNS } from './ornament';
import type { Mark } from './passage';

/** The marks over what is in a group: those around it, and its own. */
export function markedBy(group: GroupItem, marks: readonly Mark[]): readonly Mark[] {
  const { mark } = group;
  if (!mark || (mark.word === BY_TURNS && !notesByTurns(group))) return marks;
  const item = repeatedIn(group);
  const value = item && exactDuration(item);
  return [...marks, { word: mark.word, ...(value && { value }) }];
}

/** What a measured tremolo is repeated in. */
export function repeatedIn({ mark, items: [first] }: GroupItem): DurationItem | undefined {
  return (mark?.word === 'tremolo' || mark?.word === BY_TURNS) && first?.kind === 'duration' ? first : undefined;
}

/** The words before a note. A fingered tremolo of one note is none, which has been told. */
export function ownMarks({ marks = [] }: EventItem): readonly Mark[] {
  return marks.filter(({ word }) => word !== BY_TURNS).map(({ word }) => ({ word }));
}
