import type { Pins } from '../passage/passage';
import { capital, listed } from '../scene/words';
import { closedWay, noRoom } from './no-harmonic';
import { hintSpot } from './spot';
import { unplayableRule } from './unplayable';

const WORDS: Readonly<Record<keyof Pins, string>> = {
  string: 'the string',
  finger: 'the finger',
  fingers: 'the two fingers',
  manner: 'how the note is made',
  interval: 'the interval between the fingers',
  node: 'the point of division',
  position: 'the position',
  open: 'that no string is open',
};

/** A hint that no way of playing the note can meet. */
export default unplayableRule('unmet-hint', ['hints'], (subject, { event, reason }) => {
  if (reason.kind !== 'hints') return undefined;
  const { note, hints } = reason;
  const closed = closedWay(subject, event, note);
  const together = hints.length > 1 ? 'changing any one of them solves it' : 'changing it solves it';
  const why = closed
    ? noRoom(closed)
    : `${capital(listed(hints.map((hint) => WORDS[hint])))} rule${hints.length === 1 ? 's' : ''} out every one (${together}).`;
  return {
    span: hintSpot(subject, event, note, hints.slice(0, 1)),
    message: `This note can't be played with the hints that apply to it. ${why} Change the hint, or take one of the nearest ways below.`,
  };
});
