import type { Breaking } from '../../grammar/marks';
import type { SceneBreaking } from '../protocol/scene';

const STROKES: Readonly<Record<Breaking, string>> = {
  '1+2': 'The bow breaks the chord 1+2: the lowest note, then the two upper ones.',
  '2+1': 'The bow breaks the chord 2+1: the two lower notes, then the highest.',
  '2+2': 'The bow breaks the chord 2+2: the two lower notes, then the two upper ones.',
  together: 'The bow takes all three notes at once.',
};

/** How a chord is played, in sentences; none for what is no chord. */
export function breakingWords(breaking: SceneBreaking | undefined): readonly string[] {
  if (!breaking) return [];
  const strokes = STROKES[breaking.strokes];
  if (!breaking.inHalves) return [strokes];
  return [strokes, 'The hand can’t hold all of it: set the fingers of the upper notes while the bow goes over to them.'];
}

/** For the few words that tell why: `the chord broken 2+2, set in two halves`. */
export function shortBreaking({ strokes, inHalves }: SceneBreaking): string {
  const how = strokes === 'together' ? 'the chord at once' : `the chord broken ${strokes}`;
  return inHalves ? `${how}, set in two halves` : how;
}
