import { parsePitch, step } from '../../music/pitch';
import type { ScenePassage } from '../../protocol/scene';
import { printedNotes } from './printed';

export type Clef = 'treble' | 'alto' | 'tenor' | 'bass';

/** Clefs that players of the family read, the usual one first; and the white-key step above C0 of their middle line. */
const CLEFS: Readonly<Record<ScenePassage['board']['family'], readonly Clef[]>> = {
  violin: ['treble'],
  viola: ['alto', 'treble'],
  cello: ['bass', 'tenor', 'treble'],
};
const MIDDLE_LINE: Readonly<Record<Clef, number>> = { treble: 34, alto: 28, tenor: 26, bass: 22 };
/** Steps from the middle line to the outer one. */
const OUTER = 4;
/** A clef other than the usual one must save this many ledger steps for each note. */
const WORTH = 1;

/** White-key steps above C0 of a pitch as the passage language writes it. */
export function stepOf(pitch: string): number {
  return step(parsePitch(pitch)!);
}

export function clefFor({ board, events }: ScenePassage): Clef {
  return bestClef(
    board.family,
    events.flatMap((event) => printedNotes(event).map(({ pitch }) => stepOf(pitch))),
  );
}

/**
 * The clef in which notes need the fewest ledger lines; the family's usual one unless another is clearly better. Notes are given as
 * white-key steps above C0.
 */
export function bestClef(family: ScenePassage['board']['family'], steps: readonly number[]): Clef {
  const beyond = (clef: Clef): number =>
    steps.reduce((sum, step) => sum + Math.max(0, Math.abs(step - MIDDLE_LINE[clef]) - OUTER), 0);
  const [usual = 'treble', ...others] = CLEFS[family];
  return others.reduce((best, clef) => (beyond(clef) + WORTH * steps.length < beyond(best) ? clef : best), usual);
}
