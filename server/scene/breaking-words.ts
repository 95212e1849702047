import type { Breaking } from '../../grammar/marks';
import { later, t } from '../l10n/translate';
import type { SceneBreaking } from '../protocol/scene';

const STROKES: Readonly<Record<Breaking, string>> = {
  '1+2': later('The bow breaks the chord 1+2: the lowest note, then the two upper ones.'),
  '2+1': later('The bow breaks the chord 2+1: the two lower notes, then the highest.'),
  '2+2': later('The bow breaks the chord 2+2: the two lower notes, then the two upper ones.'),
  together: later('The bow takes all three notes at once.'),
};

/** How a chord is played, in sentences; none for what is no chord. */
export function breakingWords(breaking: SceneBreaking | undefined): readonly string[] {
  if (!breaking) return [];
  const strokes = t(STROKES[breaking.strokes]);
  if (!breaking.inHalves) return [strokes];
  return [strokes, t('The hand can’t hold all of it: set the fingers of the upper notes while the bow goes over to them.')];
}

/** For the few words that tell why: `the chord broken 2+2, set in two halves`. */
export function shortBreaking({ strokes, inHalves }: SceneBreaking): string {
  const how = strokes === 'together' ? t('the chord at once') : t('the chord broken {strokes}', { strokes });
  return inHalves ? t('{how}, set in two halves', { how }) : how;
}
