import { absolute, pathAt } from '../../grammar/at';
import type { Hint, Span } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { wayLabel } from '../scene/scene';
import { alternatives } from '../solver/alternatives';
import { otherwise } from '../solver/otherwise';
import type { Alternative, Fingering } from '../solver/solution';
import { pinEdits } from './pinning';
import type { RatedFix, Subject } from './rule';

/** Where an event, or one note of it, stands in the file. */
export function spotOf({ tree, passage }: Pick<Subject, 'tree' | 'passage'>, event: number, note?: number): Span {
  const { source } = passage.events[event]!;
  const own = note === undefined ? undefined : source.notes[note]?.form;
  return absolute(tree.lines[source.line]!, own ?? source.span);
}

/** The hints of one kind written behind a note; the note itself where they are not in the text (a motif's). */
export function hintSpot(subject: Subject, event: number, note: number, kinds: readonly string[]): Span {
  const { tree, passage } = subject;
  const { source } = passage.events[event]!;
  const line = tree.lines[source.line]!;
  const written = source.notes[note]?.hints;
  const hints: readonly Hint[] = written ? (pathAt(tree, line.start + written.start + 1).note?.hints?.hints ?? []) : [];
  const found = hints.find((hint) => kinds.includes(hint.kind));
  if (found) return absolute(line, found);
  return written ? absolute(line, written) : spotOf(subject, event, note);
}

/** Where a double stop asks for its strings: the string hint of the second note where there is one, the whole event where there is none. */
export function stringsSpot(subject: Subject, event: number): Span {
  const pinned = subject.passage.events[event]!.spec.notes[1]?.pins.string !== undefined;
  return pinned ? hintSpot(subject, event, 1, ['string']) : spotOf(subject, event);
}

/** «II natural 1/3, finger 2 + I open». */
export function labelOf(fingering: Fingering): string {
  return fingering.ways.map(wayLabel).join(' + ');
}

/** The fix that writes a fingering behind its notes; none where they come out of a motif. */
export function playAs({ tree, passage }: Subject, event: number, fingering: Fingering): readonly RatedFix[] {
  const edits = pinEdits(tree, passage, event, fingering);
  return edits.length ? [{ title: t('Play it as {fingering}', { fingering: labelOf(fingering) }), edits }] : [];
}

/**
 * The fixes that play an event in one of the ways that answer a wish, the easiest for the whole passage first. Where the
 * editor's own hints or printed form leave none, in a way that sounds the same without them.
 */
export function playAsOneOf(subject: Subject, event: number, wish: (one: Fingering) => boolean, most = 2): readonly RatedFix[] {
  const { passage, solution } = subject;
  if (passage.events[event]!.source.definition) return [];
  const ways = alternativesThat(subject, event, wish);
  const found = ways.length
    ? ways
    : otherwise(passage.events[event]!.spec, passage.setup, solution.work.lattice.columns[event]!.states.around.fifths).filter(
        wish,
      );
  return found.slice(0, most).flatMap((fingering) => playAs(subject, event, fingering));
}

/** The same where the wish is of the hand's place, which only the whole passage tells. */
export function playInPassage(
  subject: Subject,
  event: number,
  wish: (one: Alternative) => boolean,
  most = 2,
): readonly RatedFix[] {
  if (subject.passage.events[event]!.source.definition) return [];
  const found = alternatives(subject.solution, event).filter(wish);
  return found.slice(0, most).flatMap(({ fingering }) => playAs(subject, event, fingering));
}

function alternativesThat({ solution }: Subject, event: number, wish: (one: Fingering) => boolean): readonly Fingering[] {
  return alternatives(solution, event).flatMap(({ fingering }) => (wish(fingering) ? [fingering] : []));
}
