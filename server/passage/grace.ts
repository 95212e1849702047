import { exactly, one } from '../music/time';
import type { Draft } from './draft';

/** What a grace note takes, in whole notes. Assumption: about as quick as players make them, at usual tempos. */
const GRACE = exactly(1, 32);

/** Gives grace notes their time out of a note's, where there is one: a 1/32 each, less where that would be more than half of it. */
export function giveTime(giver: Draft | undefined, graces: readonly Draft[]): void {
  if (graces.length === 0) return;
  let each = GRACE;
  while (giver && each.mul(2 * graces.length).compare(giver.sounds) > 0) each = one(each.div(2));
  for (const grace of graces) grace.sounds = each;
  if (giver) giver.sounds = one(giver.sounds.sub(each.mul(graces.length)));
}
