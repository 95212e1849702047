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
  label: 'Tempo ladder',
  meaning: 'The hardest bars rung by rung up to the tempo that is still safe',
  needs: 'bars that are safe at some tempo',
  exercises: ladder,
};

function ladder(source: Source): readonly Exercise[] {
  const found = heaviestBars(source);
  const bars = cutOut(found);
  if (bars.length === 0) return [];
  const title = `Tempo ladder: ${barsName(bars)}`;
  const solution = source.rehearse({ title, sections: [{ instructions: [], bars }], rests: false });
  const written = solution?.passage.events[0]?.tempo;
  const top = solution && goalTempo(solution, source.chance);
  if (!solution || !written || !top) return [];
  const clean = cleanAt(solution);
  const chance = often(clean(top.bpm / written.bpm));
  const slowly = clean(RUNGS[0]! * (top.bpm / written.bpm));
  const fingers =
    slowly < source.chance
      ? ` Even on the lowest rung they come out clean ${often(slowly)}, so most of the work is in the fingers: practise the hard spots first.`
      : '';
  const limit =
    slowly < source.chance ? 'as fast as they go before the tempo itself spoils them' : 'the fastest tempo that is safe today';
  const goal =
    top.bpm < written.bpm
      ? `${tempoText(top)} is ${limit}; there they come out clean ${chance}. ${tempoText(written)} is written`
      : `${tempoText(top)} is the written tempo; there they come out clean ${chance}`;
  const rungs = [...new Set(RUNGS.map((share) => (share === 1 ? top.bpm : scaled(top, share).bpm)))].filter(
    (bpm) => bpm <= top.bpm,
  );
  const sections = rungs.map((bpm, index): Section => {
    const now = { beat: written.beat, bpm };
    const told = [
      index === 0
        ? `${capital(barsName(bars))} from slow to safe: ${goal}.${fingers}`
        : index < rungs.length - 1
          ? `Next rung: ${tempoText(now)}.`
          : `${tempoText(now)}: the top. Stop here, however well it goes; a ladder climbed in haste teaches the haste.`,
      ...(index === 0
        ? ['Each rung three times in a row without a miss before the next one. After two misses go back a rung.']
        : []),
    ];
    return { instructions: told, bars: atTempo(bars, bpm / written.bpm), repeated: true };
  });
  return [{ title, sections, rests: true }];
}
