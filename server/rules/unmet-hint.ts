import { later, t } from '../l10n/translate';
import type { Pins } from '../passage/passage';
import { listed } from '../scene/words';
import { closedWay, noRoom } from './no-harmonic';
import { hintSpot } from './spot';
import { unplayableRule } from './unplayable';

const WORDS: Readonly<Record<keyof Pins, string>> = {
  string: later('the string'),
  finger: later('the finger'),
  fingers: later('the two fingers'),
  manner: later('how the note is made'),
  interval: later('the interval between the fingers'),
  node: later('the point of division'),
  position: later('the position'),
  breaking: later('how the chord is broken'),
  open: later('that no string is open'),
};

/** A hint that no way of playing the note can meet. */
export default unplayableRule('unmet-hint', ['hints'], (subject, { event, reason }) => {
  if (reason.kind !== 'hints') return undefined;
  const { note, hints } = reason;
  const onlyOne = hints.length === 1;
  const closed = closedWay(subject, event, note);
  const message = closed
    ? onlyOne
      ? t('No way of playing this note fits its hints. {why} Change the hint, or take one of the nearest ways below.', {
          why: noRoom(closed),
        })
      : t('No way of playing this note fits its hints. {why} Change a hint, or take one of the nearest ways below.', {
          why: noRoom(closed),
        })
    : excluded(listed(hints.map((hint) => t(WORDS[hint]))), hints.length);
  return {
    span: hintSpot(subject, event, note, hints.slice(0, 1)),
    message,
  };
});

/** `hints` leave nothing between them, though any of them alone would. */
function excluded(hints: string, count: number): string {
  if (count === 1)
    return t(
      'No way of playing this note fits its hints: {hint} rules out every one (changing it solves it). Change the hint, or take one of the nearest ways below.',
      { hint: hints },
    );
  return count === 2
    ? t(
        'No way of playing this note fits its hints: {hints} rule out every one (changing either solves it). Change a hint, or take one of the nearest ways below.',
        { hints },
      )
    : t(
        'No way of playing this note fits its hints: {hints} rule out every one (changing any one of them solves it). Change a hint, or take one of the nearest ways below.',
        { hints },
      );
}
