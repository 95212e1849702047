import { doubleStops } from './double-stops';
import { everyString } from './every-string';
import { fourthOrFifth } from './fourth-or-fifth';
import { hardSpots } from './hard-spots';
import type { PracticeKind } from './kind';
import { referenceDrill } from './reference-drill';
import { rhythms } from './rhythms';
import { tempoLadder } from './tempo-ladder';
import { touchAndStop } from './touch-and-stop';

/** Every kind of exercise, in the order in which they are practised: the hand first, then the spots, then the tempo. */
export const KINDS: readonly PracticeKind[] = [
  referenceDrill,
  touchAndStop,
  doubleStops,
  fourthOrFifth,
  everyString,
  hardSpots,
  rhythms,
  tempoLadder,
];
