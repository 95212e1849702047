import type { StringNumber } from '../../grammar/tree';
import { later, t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import { intervalWords, mmWords, printedPitch } from '../scene/words';
import type { Way } from '../solver/way';
import { drillBar, HALF, played, silence, WHOLE } from './drill';
import type { Exercise, Section } from './exercise';
import type { PracticeKind } from './kind';
import { asShape, waysAlone } from './notes';
import { type Source, solvedEvents } from './source';

/** At most so many notes of a passage. */
const NOTES = 2;

export const fourthOrFifth: PracticeKind = {
  name: 'fourth-or-fifth',
  label: later('Fourth or fifth'),
  meaning: later('The same note as a fourth harmonic and as a fifth harmonic, side by side'),
  needs: later('a harmonic that this hand can take with either interval'),
  exercises: (source) => {
    const seen = new Set<string>();
    const fingered = solvedEvents(source).flatMap(({ solved }) =>
      solved.fingering.ways.map((way) => ({ way, cost: solved.cost })),
    );
    return fingered
      .sort((a, b) => b.cost - a.cost)
      .flatMap(({ way }) => {
        const key = pitchName(way.sounding);
        const other = seen.has(key) ? undefined : counterpart(source, way);
        if (!other) return [];
        seen.add(key);
        return [way.interval === 'fourth' ? sideBySide(way, other) : sideBySide(other, way)];
      })
      .slice(0, NOTES);
  },
};

/** The same pitch with the other interval, nearest to where the hand is. */
function counterpart({ solution }: Source, way: Way): Way | undefined {
  if (way.interval !== 'fourth' && way.interval !== 'fifth') return undefined;
  const { setup } = solution.passage;
  const interval = way.interval === 'fourth' ? 'fifth' : 'fourth';
  const spec = { asked: { kind: 'sounding', pitch: way.sounding }, harmonic: 'must' } as const;
  const found = setup.instrument.strings.flatMap(({ number }) =>
    waysAlone(spec, { interval, string: number as StringNumber }, setup),
  );
  const distance = (other: Way) => Math.abs((other.stop?.mm ?? 0) - (way.stop?.mm ?? 0));
  return found.filter(usual).sort((a, b) => distance(a) - distance(b))[0];
}

/** With the outer fingers of the hand, the thumb where the cello has it. */
function usual({ stop, touch }: Way): boolean {
  return (stop?.finger === 1 && touch?.finger === 4) || (stop?.finger === 'T' && touch?.finger === 3);
}

function sideBySide(fourth: Way, fifth: Way): Exercise {
  const name = printedPitch(pitchName(fourth.sounding));
  const [a, b] = [asShape(fourth), asShape(fifth)];
  const alone = (way: Way): Section => ({
    instructions: [described(way)],
    bars: [drillBar(played(HALF, asShape(way)), silence(HALF)), drillBar(played(WHOLE, asShape(way)))],
    repeated: true,
  });
  return {
    title: t('Fourth or fifth: {name}', { name }),
    rests: false,
    sections: [
      {
        ...alone(fourth),
        instructions: [
          t('{name} can be had both ways. {compared} Try both and keep the one that is yours.', {
            name,
            compared: compared(fourth, fifth),
          }),
          described(fourth),
        ],
      },
      alone(fifth),
      {
        instructions: [
          t('Side by side: go to the other place in the rest, set both fingers, then bow. They must sound the same.'),
        ],
        bars: [
          drillBar(played(HALF, a), silence(HALF)),
          drillBar(played(HALF, b), silence(HALF)),
          drillBar(played(HALF, a), silence(HALF)),
          drillBar(played(WHOLE, b)),
        ],
      },
    ],
  };
}

/** What speaks for each, as it is here. */
function compared(fourth: Way, fifth: Way): string {
  const wider = spanOf(fifth) - spanOf(fourth);
  if (wider > ALIKE)
    return t('A fifth forgives a wider miss and needs less pressure from the first finger; a fourth asks less of the hand.');
  return wider < -ALIKE
    ? t(
        'A fifth forgives a wider miss and needs less pressure from the first finger; and here, further up the string, it even asks less of the hand.',
      )
    : t(
        'A fifth forgives a wider miss and needs less pressure from the first finger; here, further up the string, it asks no more of the hand.',
      );
}

/** Stretches that differ by no more than this, mm, feel alike. Assumption. */
const ALIKE = 3;

function spanOf({ stop, touch }: Way): number {
  return (touch?.mm ?? 0) - (stop?.mm ?? 0);
}

function described(way: Way): string {
  const { stop, touch, tolerance = 0 } = way;
  return t(
    'As a {interval} harmonic: {stopped} stopped on {string}, {touched} touched; {span} between the fingers, and the upper one may miss by {tolerance} either way.',
    {
      interval: intervalWords(way.interval),
      stopped: printedPitch(pitchName(stop!.pitch)),
      string: way.stringName,
      touched: printedPitch(pitchName(touch!.pitch)),
      span: mmWords(spanOf(way)),
      tolerance: mmWords(tolerance),
    },
  );
}
