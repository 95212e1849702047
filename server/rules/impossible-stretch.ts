import { t } from '../l10n/translate';
import { fingersWords, mmWords } from '../scene/words';
import { hintSpot, spotOf } from './spot';
import { unplayableRule } from './unplayable';

/** The shape asks for more than the hand has. */
export default unplayableRule('impossible-stretch', ['stretch'], (subject, { event, reason, relaxations }) => {
  if (reason.kind !== 'stretch') return undefined;
  const [low, high] = reason.fingers;
  const { notes } = subject.passage.events[event]!.spec;
  const [asked, reach] = apart(reason.asked, reason.reach);
  const pinned = notes.findIndex(({ pins }) => pins.fingers || pins.interval);
  const holes = { asked, fingers: fingersWords(low, high), hand: subject.passage.setup.hand.name, reach, low, high };
  return {
    span:
      pinned < 0
        ? spotOf(subject, event, notes.length === 1 ? 0 : undefined)
        : hintSpot(subject, event, pinned, ['fingers', 'interval']),
    message: relaxations.some(({ kind }) => kind === 'fingering')
      ? t(
          "Out of reach: this needs {asked} between {fingers}; this hand ({hand}) spans {reach} there. Don't force it: take one of the other ways below, or set the hand's own reach with `hand: {low}-{high} …` if yours is larger.",
          holes,
        )
      : t(
          "Out of reach: this needs {asked} between {fingers}; this hand ({hand}) spans {reach} there. Don't force it: choose another note, or set the hand's own reach with `hand: {low}-{high} …` if yours is larger.",
          holes,
        ),
  };
});

/** Two lengths in words, in tenths where whole millimetres would make them look the same. */
function apart(one: number, two: number): readonly [string, string] {
  const [a, b] = [mmWords(one), mmWords(two)];
  return a === b ? [`${one.toFixed(1)} mm`, `${two.toFixed(1)} mm`] : [a, b];
}
