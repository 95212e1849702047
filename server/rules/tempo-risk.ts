import { secondsToSpeak } from '../hand/response';
import { t } from '../l10n/translate';
import { intervalWords, mmWords, often } from '../scene/words';
import { chanceAt } from '../solver/ceiling';
import { chanceOfWays, chancesOf, product } from '../solver/chances';
import { type Step, stepAt } from '../solver/read';
import type { Solution } from '../solver/solution';
import { answerOf } from '../solver/speech';
import { isTooFar } from './far-shift';
import type { EventRule } from './rule';
import { playInPassage, spotOf } from './spot';

/** A note that comes out clean less often than this is a risk: lower, and plain scales in high positions would be told. Assumption. */
export const RISKY = 0.7;
/** Another way must be better by a clear margin: the hand may come to it from elsewhere, and more open. Assumption. */
const CLEARLY = 0.8;
/** It is the tempo's doing when at a quarter of the tempo it would come out cleaner by this much. */
const BY_TEMPO = 0.05;
const SLOW = 1 / 4;

/** A note that the tempo makes likely to be out of tune, or not to speak. */
const rule: EventRule = {
  code: 'tempo-risk',
  severity: 'warning',
  on: 'event',
  check(subject, { chance }, event) {
    if (chance >= RISKY) return undefined;
    const { solution, passage } = subject;
    if (chanceAt(solution, event, SLOW) - chance < BY_TEMPO) return undefined;
    const step = stepAt(solution, event)!;
    if (isTooFar(step)) return undefined;
    const safe = safeTempo(solution, event);
    const { spec, tempo } = passage.events[event]!;
    const slower =
      safe === undefined
        ? t('Practise it slowly, or choose a fingering that lies nearer or speaks more easily.')
        : t('At {tempo} it would come out {often}, or choose a fingering that lies nearer or speaks more easily.', {
            tempo: `${tempo.beat.toFraction()} = ${Math.floor(tempo.bpm * safe)}`,
            often: often(RISKY),
          });
    const from = solution.events[event - 1]?.fingering.hand.mm;
    return [
      {
        span: spotOf(subject, event),
        message: t('At this tempo it comes out clean {chance}: {why}. {slower}', {
          chance: often(chance),
          why: why(solution, event, step),
          slower,
        }),
        fixes: () =>
          playInPassage(subject, event, ({ fingering: { ways, hand } }) => {
            const distance = from === undefined ? 0 : Math.abs(hand.mm - from);
            return chanceOfWays(ways, spec, distance, step.seconds, passage.setup) >= CLEARLY;
          }),
      },
    ];
  },
};
export default rule;

/** What there is too little time for. */
function why({ passage, work, events }: Solution, event: number, step: Step): string {
  const { setup } = passage;
  const { spec } = passage.events[event]!;
  const { ways } = events[event]!.fingering;
  const { landing, speech, together } = chancesOf(work.lattice.columns[event]!.states, work.path[event]!, step, spec.seconds);
  const least = Math.min(product(landing), product(speech), together);
  const seconds = spec.seconds.toFixed(2);
  if (least === together) return t('the note lasts {seconds} s, too short to keep finger and bow together', { seconds });
  if (least === product(speech)) {
    const [slowest] = ways
      .filter(({ partial }) => partial > 1)
      .map((way) => ({
        way,
        seconds: secondsToSpeak(setup.hand.skill, answerOf(way, ways.length > 1), spec.plucked ? 'mf' : spec.dynamic),
      }))
      .sort((a, b) => b.seconds - a.seconds);
    const kind = slowest!.way.kind === 'natural' ? t('natural') : intervalWords(slowest!.way.interval);
    return t('the note lasts {seconds} s, and a {kind} harmonic here takes about {needed} s to speak', {
      seconds,
      kind,
      needed: slowest!.seconds.toFixed(2),
    });
  }
  const room = Math.min(...ways.flatMap(({ tolerance }) => (tolerance === undefined ? [] : [tolerance])));
  return step.distance > 0
    ? t('the hand moves {distance} in {seconds} s and must land within {room}', {
        distance: mmWords(step.distance),
        seconds: step.seconds.toFixed(2),
        room: mmWords(room),
      })
    : t('the note lasts {seconds} s, and the finger must land within {room}', { seconds, room: mmWords(room) });
}

/** How many times the written tempo is slow enough, in hundredths; undefined where none is. The chance falls with the tempo. */
function safeTempo(solution: Solution, event: number): number | undefined {
  let good = 4;
  let bad = 100;
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (chanceAt(solution, event, middle / 100) >= RISKY) good = middle;
    else bad = middle;
  }
  return good < 5 ? undefined : good / 100;
}
