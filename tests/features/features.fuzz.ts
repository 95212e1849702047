import fc from 'fast-check';
import { expect, it } from 'vitest';
import { formatPassage } from '../../grammar/format';
import { actions } from '../../server/features/actions';
import { completions } from '../../server/features/completion';
import { highlights } from '../../server/features/highlight';
import { hintHelp } from '../../server/features/hint-help';
import { hoverAt } from '../../server/features/hover';
import { inlays } from '../../server/features/inlay';
import { lenses } from '../../server/features/lens';
import { ruleLinks } from '../../server/features/links';
import { definitionOf, renameMotif } from '../../server/features/motifs';
import { folds, outline } from '../../server/features/outline';
import { selectionSteps } from '../../server/features/selection';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { pieces } from '../fuzz/pieces';
import { edited } from '../support/caret';
import { fingerings, reading } from '../support/reading';
import { runs } from '../support/runs';
import { tokensIn } from '../support/tokens';

const SETTINGS = { ...DEFAULT_SETTINGS, referenceNotes: true };

const text = pieces(20);

type Edits = readonly { readonly span: { readonly start: number; readonly end: number }; readonly text: string }[];

function expectWithin(whole: string, spans: readonly { readonly start: number; readonly end: number }[]): void {
  for (const { start, end } of spans) expect(0 <= start && start <= end && end <= whole.length).toBe(true);
}

/** Edits of one action must be applicable together, as an editor applies them. */
function expectApart(whole: string, edits: Edits): void {
  const sorted = edits.map(({ span }) => span).sort((a, b) => a.start - b.start || a.end - b.end);
  expectWithin(whole, sorted);
  sorted.forEach((span, index) => {
    expect(span.start).toBeGreaterThanOrEqual(sorted[index - 1]?.end ?? 0);
  });
}

it('every feature answers every place of every text, within the text', { timeout: 280_000 }, () => {
  fc.assert(
    fc.property(text, fc.nat(), (whole, where) => {
      const now = reading(whole, SETTINGS);
      const at = where % (whole.length + 1);
      const { tree } = now;
      const everything = { start: 0, end: whole.length };
      expectWithin(
        whole,
        now.problems.flatMap(({ span, related = [] }) => [span, ...related.map((one) => one.span)]),
      );
      expectWithin(whole, selectionSteps(tree, at));
      expectWithin(whole, tokensIn(tree));
      expectWithin(
        whole,
        completions(now, at).map(({ span }) => span),
      );
      expectWithin(
        whole,
        highlights(tree, at).map(({ span }) => span),
      );
      expectWithin(
        whole,
        definitionOf(tree, at).map(({ span }) => span),
      );
      expectWithin(
        whole,
        ruleLinks(tree).map(({ span }) => span),
      );
      expectWithin(
        whole,
        lenses(now, SETTINGS).flatMap(({ span, reveal }) => [span, reveal ?? span]),
      );
      expectWithin(
        whole,
        outline(now).flatMap(({ span, selection }) => [span, selection]),
      );
      expectWithin(
        whole,
        inlays(now, everything, SETTINGS).map((inlay) => ({ start: inlay.at, end: inlay.at })),
      );
      const explained = hoverAt(now, at, { ...now.settings, target: { uri: 'untitled:x', version: 1 } });
      if (explained) expectWithin(whole, [explained.span]);
      hintHelp(now, at);
      folds(tree);
      renameMotif(tree, at, 'swell');
      expectApart(whole, formatPassage(tree));
      for (const { edits } of actions(now, { start: at, end: at }, SETTINGS, ['fix', 'rewrite', 'fixAll']))
        expectApart(whole, edits);
    }),
    runs(300, 20240608),
  );
});

it('pinning changes nothing of how a text is played', { timeout: 280_000 }, () => {
  fc.assert(
    fc.property(text, fc.nat(), (whole, where) => {
      const now = reading(whole);
      const at = where % (whole.length + 1);
      for (const { title, edits } of actions(now, { start: at, end: at }, SETTINGS, ['rewrite'])) {
        if (!title.startsWith('Pin ')) continue;
        const pinned = edited(whole, edits);
        expect([pinned, fingerings(reading(pinned))]).toEqual([pinned, fingerings(now)]);
      }
    }),
    runs(300, 20240608),
  );
});
