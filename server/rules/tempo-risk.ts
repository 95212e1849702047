import { mmWords, percent } from '../scene/words';
import { alternatives } from '../solver/alternatives';
import { chanceAt } from '../solver/ceiling';
import { stepAt } from '../solver/read';
import type { Rule } from './rule';
import { playAsOneOf, spotOf } from './spot';

/** A note that comes out clean less often than this is a risk. */
const RISKY = 0.75;
/** It is the tempo's doing when at a quarter of the tempo it would come out cleaner by this much. */
const BY_TEMPO = 0.05;
const SLOW = 1 / 4;

/** A note that the tempo makes likely to be out of tune, or not to speak. */
const rule: Rule = {
  code: 'tempo-risk',
  severity: 'warning',
  on: 'solution',
  check(subject) {
    const { solution, passage } = subject;
    return solution.events.flatMap((solved, event) => {
      const chance = solved?.speaks.reduce((all, one) => all * one, 1) ?? 1;
      if (!solved || chance >= RISKY) return [];
      const unhurried = chanceAt(solution, event, SLOW);
      if (unhurried - chance < BY_TEMPO) return [];
      const step = stepAt(solution, event)!;
      const safe = safeTempo(solution, event);
      const { beat, bpm } = passage.events[event]!.tempo;
      const slower =
        safe === undefined
          ? 'Practise it slowly'
          : `At ${beat.toFraction()} = ${Math.floor(bpm * safe)} it would come out ${percent(RISKY)} of the time`;
      return [
        {
          span: spotOf(subject, event),
          message:
            `At this tempo it comes out clean ${percent(chance)} of the time: the hand moves ${mmWords(step.distance)} in ${step.seconds.toFixed(2)} s and must land within ${mmWords(narrowest(solved.fingering.ways))}. ` +
            `${slower}; or choose a way that lies nearer the hand.`,
          fixes: playAsOneOf(
            subject,
            event,
            alternatives(solution, event),
            ({ hand }) => Math.abs(hand.mm - from(event)) < step.distance,
          ),
        },
      ];

      function from(at: number): number {
        return solution.events[at - 1]?.fingering.hand.mm ?? solved!.fingering.hand.mm;
      }
    });
  },
};
export default rule;

function narrowest(ways: readonly { readonly tolerance?: number }[]): number {
  return Math.min(...ways.flatMap(({ tolerance }) => (tolerance === undefined ? [] : [tolerance])));
}

/** How many times the written tempo is slow enough, in hundredths; undefined where none is. */
function safeTempo(solution: Parameters<typeof chanceAt>[0], event: number): number | undefined {
  for (let hundredths = 99; hundredths >= 5; hundredths--) {
    if (chanceAt(solution, event, hundredths / 100) >= RISKY) return hundredths / 100;
  }
  return undefined;
}
