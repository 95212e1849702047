import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import { mmWords, printedPitch } from '../scene/words';
import { alternatives } from '../solver/alternatives';
import type { SolvedEvent } from '../solver/solution';
import type { Way } from '../solver/way';
import type { EventRule, Subject } from './rule';
import { playAs, spotOf } from './spot';

/** Nats that the whole passage may cost more for the safer harmonic to be worth a word. */
const WORTH = 0.2;
/** A note this quick, in seconds, wants the harmonic that forgives more. Assumption. */
const QUICK = 0.2;
/** A fourth that comes out this often is safe enough as it is. Assumption. */
const SAFE = 0.95;

/** A fourth harmonic in a quick passage where a fifth or a natural one lies under the hand. */
const rule: EventRule = {
  code: 'safer-harmonic',
  severity: 'hint',
  on: 'event',
  far: isQuickFourth,
  check(subject, solved, event) {
    if (!isQuickFourth(subject, solved, event)) return undefined;
    const { solution } = subject;
    const way = solved.fingering.ways[0]!;
    const better = alternatives(solution, event, WORTH).find(({ fingering }) => safer(fingering.ways[0]!, way));
    if (!better) return undefined;
    const other = better.fingering.ways[0]!;
    const holes = {
      pitch: printedPitch(pitchName(way.sounding)),
      room: mmWords(other.tolerance ?? 0),
      less: mmWords(way.tolerance ?? 0),
    };
    return [
      {
        span: spotOf(subject, event, 0),
        message:
          other.kind === 'natural'
            ? t(
                'At this tempo a natural harmonic for {pitch} is safer than the fourth: it forgives a miss of {room} instead of {less}, and needs no stopping finger. The passage stays about as easy.',
                holes,
              )
            : t(
                'At this tempo a fifth harmonic for {pitch} is safer than the fourth: it forgives a miss of {room} instead of {less}, needs less pressure from the first finger and speaks more clearly, but is a wider stretch. The passage stays about as easy.',
                holes,
              ),
        fixes: () => playAs(subject, event, better.fingering),
      },
    ];
  },
};
export default rule;

function isQuickFourth({ passage }: Subject, { fingering: { ways }, speaks }: SolvedEvent, event: number): boolean {
  const [way, ...more] = ways;
  return way?.interval === 'fourth' && more.length === 0 && speaks[0]! < SAFE && passage.events[event]!.spec.seconds <= QUICK;
}

function safer(other: Way, than: Way): boolean {
  return (other.kind === 'natural' || other.interval === 'fifth') && (other.tolerance ?? 0) > (than.tolerance ?? 0);
}
