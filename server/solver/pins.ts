import type { Pins } from '../passage/passage';
import type { Way } from './way';

/** The hints a way can break, in the words of the passage language. `position` is asked of the hand, not of the way. */
export type PinName = 'string' | 'finger' | 'fingers' | 'manner' | 'interval' | 'node' | 'open';

const MEETS: { readonly [name in PinName]: (way: Way, pins: Pins) => boolean } = {
  string: (way, { string }) => string === undefined || way.string === string - 1,
  finger: (way, { finger }) =>
    finger === undefined || (way.stop ?? way.touch)?.finger === finger || (finger === 0 && way.kind === 'open'),
  fingers: (way, { fingers }) =>
    fingers === undefined || (way.stop?.finger === fingers.stop && way.touch?.finger === fingers.touch),
  manner: (way, { manner }) => manner === undefined || way.kind === manner,
  interval: (way, { interval }) => interval === undefined || way.interval === interval,
  open: (way, { open }) => open !== false || way.kind !== 'open',
  node: (way, { node }) => node === undefined || (way.touch?.k === node.k && way.touch.n === node.n),
};

export const PIN_NAMES = Object.keys(MEETS) as readonly PinName[];

/** True where a way does everything the hints of its note ask of it, `except` left aside. */
export function meetsPins(way: Way, pins: Pins, except?: PinName): boolean {
  return PIN_NAMES.every((name) => name === except || MEETS[name](way, pins));
}
