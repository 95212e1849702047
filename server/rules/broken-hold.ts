import { absolute, pathAt } from '../../grammar/at';
import { t } from '../l10n/translate';
import type { RatedFix, Subject } from './rule';
import { spotOf } from './spot';
import { unplayableRule } from './unplayable';

/** A held note can't be kept under the fingers of what comes next. */
export default unplayableRule('broken-hold', ['held'], (subject, { event }) => ({
  span: spotOf(subject, event),
  message: t(
    "The held note can't ring on here: the other note needs its finger or its string. Let it go (remove the `_`), or put the other note on another string.",
  ),
  fixes: () => letGo(subject, event),
}));

/** Takes the ties of the event before away. */
function letGo({ tree, passage }: Subject, event: number): readonly RatedFix[] {
  const before = passage.events[event - 1];
  if (!before || before.source.definition) return [];
  const line = tree.lines[before.source.line]!;
  const edits = passage.events[event]!.spec.held.flatMap(([there]) => {
    const place = before.source.notes[there]?.form;
    const tie = place && pathAt(tree, line.start + place.start).note?.tie;
    return tie ? [{ span: absolute(line, tie), text: '' }] : [];
  });
  return edits.length ? [{ title: t('Let the held note go'), edits }] : [];
}
