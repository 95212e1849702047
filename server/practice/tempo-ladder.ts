import { later, t } from '../l10n/translate';
import { capital, often } from '../scene/words';
import { cleanAt } from '../solver/ceiling';
import { barsName, cutOut, heaviestBars } from './excerpt';
import type { Exercise, Section } from './exercise';
import { tempoText } from './exercise-text';
import type { PracticeKind } from './kind';
import type { Source } from './source';
import { atTempo, goalTempo, scaled } from './tempo';

/** The rungs, as shares of the safe tempo. */
const RUNGS = [0.6, 0.7, 0.8, 0.9, 1];

export const tempoLadder: PracticeKind = {
  name: 'tempo-ladder',
  label: later('Tempo ladder'),
  meaning: later('The hardest bars rung by rung up to the tempo that is still safe'),
  needs: later('bars that are safe at some tempo'),
  exercises: ladder,
};

function ladder(source: Source): readonly Exercise[] {
  const found = heaviestBars(source);
  const bars = cutOut(found);
  if (bars.length === 0) return [];
  const title = t('Tempo ladder: {bars}', { bars: barsName(bars) });
  const solution = source.rehearse({ title, sections: [{ instructions: [], bars }], rests: false });
  const written = solution?.passage.events[0]?.tempo;
  const top = solution && goalTempo(solution, source.chance);
  if (!solution || !written || !top) return [];
  const clean = cleanAt(solution);
  const chance = often(clean(top.bpm / written.bpm));
  const slowly = clean(RUNGS[0]! * (top.bpm / written.bpm));
  const fingers =
    slowly < source.chance
      ? ` ${t(
          'Even on the lowest rung they come out clean {slowly}, so most of the work is in the fingers: practise the hard spots first.',
          { slowly: often(slowly) },
        )}`
      : '';
  const holes = { bars: capital(barsName(bars)), top: tempoText(top), chance, written: tempoText(written) };
  const goal =
    top.bpm >= written.bpm
      ? t('{bars} from slow to safe: {top} is the written tempo; there they come out clean {chance}.', {
          bars: holes.bars,
          top: holes.top,
          chance,
        })
      : slowly < source.chance
        ? t(
            '{bars} from slow to safe: {top} is as fast as they go before the tempo itself spoils them; there they come out clean {chance}. {written} is written.',
            holes,
          )
        : t(
            '{bars} from slow to safe: {top} is the fastest tempo that is safe today; there they come out clean {chance}. {written} is written.',
            holes,
          );
  const rungs = [...new Set(RUNGS.map((share) => (share === 1 ? top.bpm : scaled(top, share).bpm)))].filter(
    (bpm) => bpm <= top.bpm,
  );
  const sections = rungs.map((bpm, index): Section => {
    const now = { beat: written.beat, bpm };
    const told = [
      index === 0
        ? goal + fingers
        : index < rungs.length - 1
          ? t('Next rung: {now}.', { now: tempoText(now) })
          : t('{now}: the top. Stop here, however well it goes; a ladder climbed in haste teaches the haste.', {
              now: tempoText(now),
            }),
      ...(index === 0
        ? [t('Each rung three times in a row without a miss before the next one. After two misses go back a rung.')]
        : []),
    ];
    return { instructions: told, bars: atTempo(bars, bpm / written.bpm), repeated: true };
  });
  return [{ title, sections, rests: true }];
}
