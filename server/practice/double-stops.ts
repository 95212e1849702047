import { later, t } from '../l10n/translate';
import { mmWords } from '../scene/words';
import type { Fingering } from '../solver/solution';
import { drillBar, HALF, played, silence, WHOLE } from './drill';
import type { Exercise } from './exercise';
import type { PracticeKind } from './kind';
import { asShape } from './notes';
import { type Source, solvedEvents } from './source';
import { mannersName, pitchesName } from './wording';

/** At most so many of a passage, the hardest. */
const STOPS = 3;

export const doubleStops: PracticeKind = {
  name: 'double-stops',
  label: later('Double stops prepared'),
  meaning: later('Each voice of a double stop alone, the fingers set in silence, then both together'),
  needs: later('a double stop with a harmonic in it'),
  exercises: (source) => found(source).map(preparation),
};

function found(source: Source): readonly Fingering[] {
  const seen = new Set<string>();
  return [...solvedEvents(source)]
    .filter(({ solved }) => solved.fingering.ways.length === 2 && solved.fingering.ways.some(({ partial }) => partial > 1))
    .sort((a, b) => b.solved.cost - a.solved.cost || a.event - b.event)
    .map(({ solved }) => solved.fingering)
    .filter(({ ways }) => {
      const key = pitchesName(ways) + mannersName(ways);
      return !seen.has(key) && seen.add(key);
    })
    .slice(0, STOPS);
}

function preparation({ ways, barred }: Fingering): Exercise {
  const [one, two] = ways as readonly [Fingering['ways'][number], Fingering['ways'][number]];
  // Built from the lower voice, as the ear does.
  const [lower, upper] = one.hz <= two.hz ? [one, two] : [two, one];
  const [a, b] = [asShape(lower), asShape(upper)];
  const room = Math.min(...ways.map(({ tolerance }) => tolerance ?? Number.POSITIVE_INFINITY));
  const holes = { pitches: pitchesName([lower, upper]), manners: mannersName([lower, upper]) };
  const warning = ways.every(({ partial }) => partial > 1)
    ? t(
        '{pitches}: {manners}. Two harmonics that each speak alone may still not speak together, so put them together one thing at a time.',
        holes,
      )
    : t(
        '{pitches}: {manners}. A harmonic that speaks alone may still fail beside another note, so put them together one thing at a time.',
        holes,
      );
  const narrow = Number.isFinite(room)
    ? ` ${t('The finger with the least room may miss by {room}.', { room: mmWords(room) })}`
    : '';
  const hand = barred
    ? t('One finger lies over both strings: see that it is on the point of both.')
    : t('See that no finger leans on the other string.');
  return {
    title: t('Double stop: {pitches}', { pitches: holes.pitches }),
    rests: false,
    sections: [
      {
        instructions: [warning + narrow, t('Each voice alone, but with all the fingers of both in place.')],
        bars: [drillBar(played(WHOLE, a)), drillBar(played(WHOLE, b))],
        repeated: true,
      },
      {
        instructions: [
          t(
            'In the rest lift the hand, then set all fingers in silence. {hand} Then both strings, with the weight of the bow shared evenly.',
            { hand },
          ),
        ],
        bars: [drillBar(silence(HALF), played(HALF, a, b)), drillBar(silence(HALF), played(HALF, a, b))],
        repeated: true,
      },
      {
        instructions: [
          t('Let each voice begin and hold it while the other comes in: if the first one breaks off, a finger has moved.'),
        ],
        bars: [
          drillBar(played(HALF, asShape(lower, { tied: true })), played(HALF, asShape(lower, { held: true }), b)),
          drillBar(played(HALF, asShape(upper, { tied: true })), played(HALF, asShape(upper, { held: true }), a)),
          drillBar(played(WHOLE, a, b)),
        ],
      },
    ],
  };
}
