import type { Pins } from '../passage/passage';
import { listed } from '../scene/words';
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
  breaking: 'how the chord is broken',
  open: 'that no string is open',
};

/** A hint that no way of playing the note can meet. */
export default unplayableRule('unmet-hint', ['hints'], (subject, { event, reason }) => {
  if (reason.kind !== 'hints') return undefined;
  const { note, hints } = reason;
  const closed = closedWay(subject, event, note);
  const changed = ['it', 'either'][hints.length - 1] ?? 'any one of them';
  const why = closed
    ? `. ${noRoom(closed)}`
    : `: ${listed(hints.map((hint) => WORDS[hint]))} rule${hints.length === 1 ? 's' : ''} out every one (changing ${changed} solves it).`;
  return {
    span: hintSpot(subject, event, note, hints.slice(0, 1)),
    message: `No way of playing this note fits its hints${why} Change ${hints.length === 1 ? 'the' : 'a'} hint, or take one of the nearest ways below.`,
  };
});
