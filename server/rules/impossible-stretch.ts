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
  const way = relaxations.some(({ kind }) => kind === 'fingering') ? 'take one of the other ways below' : 'choose another note';
  return {
    span:
      pinned < 0
        ? spotOf(subject, event, notes.length === 1 ? 0 : undefined)
        : hintSpot(subject, event, pinned, ['fingers', 'interval']),
    message:
      `Out of reach: this needs ${asked} between ${fingersWords(low, high)}; this hand (${subject.passage.setup.hand.name}) spans ${reach} there. ` +
      `Don't force it: ${way}, or set the hand's own reach with \`hand: ${low}-${high} …\` if yours is larger.`,
  };
});

/** Two lengths in words, in tenths where whole millimetres would make them look the same. */
function apart(one: number, two: number): readonly [string, string] {
  const [a, b] = [mmWords(one), mmWords(two)];
  return a === b ? [`${one.toFixed(1)} mm`, `${two.toFixed(1)} mm`] : [a, b];
}
