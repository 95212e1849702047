import beating from './beating';
import brokenHold from './broken-hold';
import crossedFingers from './crossed-fingers';
import farShift from './far-shift';
import farStrings from './far-strings';
import impossibleStretch from './impossible-stretch';
import littleRoom from './little-room';
import loneThird from './lone-third';
import longStretch from './long-stretch';
import noHarmonic from './no-harmonic';
import octaveSlip from './octave-slip';
import offPitch from './off-pitch';
import outOfRange from './out-of-range';
import type { Rule } from './rule';
import saferHarmonic from './safer-harmonic';
import sameSpot from './same-spot';
import sameString from './same-string';
import softHarmonic from './soft-harmonic';
import tempoRisk from './tempo-risk';
import unmetHint from './unmet-hint';
import unsureRun from './unsure-run';

/** Every rule, in the order that its problems are listed: what can't be played, what is a risk, what is worth knowing. */
export const RULES: readonly Rule[] = [
  impossibleStretch,
  unmetHint,
  outOfRange,
  octaveSlip,
  noHarmonic,
  sameString,
  farStrings,
  crossedFingers,
  brokenHold,
  littleRoom,
  loneThird,
  tempoRisk,
  farShift,
  unsureRun,
  offPitch,
  beating,
  longStretch,
  softHarmonic,
  saferHarmonic,
  sameSpot,
];
