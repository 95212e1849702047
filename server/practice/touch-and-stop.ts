import type { StringNumber } from '../../grammar/tree';
import { fingerOffset, ONE_SPOT, touchToStop } from '../instrument/offset';
import { later, t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import { fingerWords, mmWords, printedPitch } from '../scene/words';
import type { Way } from '../solver/way';
import { drillBar, HALF, played, QUARTER, silence, WHOLE } from './drill';
import type { Exercise } from './exercise';
import type { PracticeKind } from './kind';
import { asShape, waysAlone } from './notes';
import { type Source, solvedEvents } from './source';

/** At most so many spots; the hand learns the offset, not the places. */
const SPOTS = 2;

/** A harmonic and the stopped note under the same finger. */
interface Spot {
  readonly touched: Way;
  readonly stopped: Way;
}

export const touchAndStop: PracticeKind = {
  name: 'touch-and-stop',
  label: later('Touch and stop'),
  meaning: later('A harmonic and the stopped note on the same spot in turn, for the few millimetres between them'),
  needs: later('a natural harmonic at a place where the same finger can stop a note'),
  quiets: 'same-spot',
  exercises: (source) => spotsOf(source).map((spot) => alternation(source, spot)),
};

/** Spots where the passage itself goes from one to the other come first, then its other natural harmonics. */
function spotsOf(source: Source): readonly Spot[] {
  const events = solvedEvents(source).map(({ solved }) => solved.fingering.ways);
  const changing = events.flatMap((ways, index) => {
    const [a, b] = [ways[0]!, events[index + 1]?.[0]];
    if (!b || ways.length > 1 || events[index + 1]!.length > 1) return [];
    if (a.kind === 'natural' && b.kind === 'stopped') return oneSpot(a, b);
    return a.kind === 'stopped' && b.kind === 'natural' ? oneSpot(b, a) : [];
  });
  const others = events.flat().flatMap((way) => (way.kind === 'natural' ? stoppedUnder(source, way) : []));
  const seen = new Set<string>();
  return [...changing, ...others]
    .filter(({ touched, stopped }) => {
      const key = `${touched.stringName} ${touched.touch?.k}/${touched.touch?.n} ${pitchName(stopped.sounding)}`;
      return !seen.has(key) && seen.add(key);
    })
    .slice(0, SPOTS);
}

function oneSpot(touched: Way, stopped: Way): readonly Spot[] {
  const { touch } = touched;
  const { stop } = stopped;
  const same = touch && stop && touched.string === stopped.string && touch.finger === stop.finger;
  return same && Math.abs(touch.mm - stop.mm) <= ONE_SPOT ? [{ touched, stopped }] : [];
}

/** The note that the touching finger would stop where it is. */
function stoppedUnder(source: Source, touched: Way): readonly Spot[] {
  const { touch } = touched;
  if (!touch) return [];
  const spec = { asked: { kind: 'sounding', pitch: touch.pitch }, harmonic: 'no' } as const;
  const pins = { string: (touched.string + 1) as StringNumber, finger: touch.finger };
  const [stopped] = waysAlone(spec, pins, source.solution.passage.setup);
  return stopped ? oneSpot(touched, stopped) : [];
}

function alternation({ solution }: Source, { touched, stopped }: Spot): Exercise {
  const { instrument } = solution.passage.setup;
  const string = instrument.strings[touched.string]!;
  const [touch, stop] = [touched.touch!, stopped.stop!];
  const offset = fingerOffset(instrument, string, stop.mm);
  const toNut = touchToStop(instrument, string, touch.mm, stop.mm);
  const way = (toward: boolean) => {
    const distance = mmWords(Math.abs(toNut));
    return toNut > 0 === toward ? t('{distance} toward the nut', { distance }) : t('{distance} toward the bridge', { distance });
  };
  const names = { harmonic: printedPitch(pitchName(touched.sounding)), stopped: printedPitch(pitchName(stopped.sounding)) };
  const touching = asShape(touched);
  const stopping = asShape(stopped);
  const one = names.harmonic === names.stopped;
  const held = {
    finger: fingerWords(String(touch.finger)),
    string: touched.stringName,
    total: mmWords(offset.total),
    edge: mmWords(offset.edge),
    stretch: mmWords(offset.stretch),
    ...names,
  };
  const why = one
    ? t(
        'The {finger} touches and stops the same {stopped} on the same spot of string {string}, but not at quite the same place. Stopping needs the finger {total} nearer the nut ({edge} since its edge ends the string, {stretch} since pressing stretches it).',
        held,
      )
    : t(
        'The {finger} touches for {harmonic} and stops for {stopped} on the same spot of string {string}, but not at quite the same place. Stopping needs the finger {total} nearer the nut ({edge} since its edge ends the string, {stretch} since pressing stretches it).',
        held,
      );
  const rolled = { distance: mmWords(Math.abs(touch.mm - stop.mm)), there: way(true), back: way(false) };
  const roll =
    Math.abs(touch.mm - stop.mm) < 0.1
      ? t('The finger rolls {there} from harmonic to stopped note, and {back} back.', rolled)
      : touch.mm > stop.mm
        ? t(
            'With the point of the harmonic itself {distance} nearer the bridge than the tempered note, the finger rolls {there} from harmonic to stopped note, and {back} back.',
            rolled,
          )
        : t(
            'With the point of the harmonic itself {distance} nearer the nut than the tempered note, the finger rolls {there} from harmonic to stopped note, and {back} back.',
            rolled,
          );
  const { string: on } = held;
  return {
    title: one
      ? t('Touch and stop: {stopped} on {string}', { stopped: names.stopped, string: on })
      : t('Touch and stop: {harmonic} and {stopped} on {string}', { ...names, string: on }),
    rests: false,
    sections: [
      {
        instructions: [`${why} ${roll}`, t('In the rest leave the finger on the string and only change its weight and place.')],
        bars: [
          drillBar(played(HALF, touching), silence(HALF)),
          drillBar(played(HALF, stopping), silence(HALF)),
          drillBar(played(HALF, touching), played(HALF, stopping)),
        ],
        repeated: true,
      },
      {
        instructions: [
          one
            ? t('Now without the rest: roll the fingertip, do not lift it. Both must sound the same.')
            : t('Now without the rest: roll the fingertip, do not lift it. The stopped note must be in tune at once.'),
        ],
        bars: [
          drillBar(played(QUARTER, touching), played(QUARTER, stopping), played(QUARTER, touching), played(QUARTER, stopping)),
          drillBar(played(QUARTER, stopping), played(QUARTER, touching), played(QUARTER, stopping), played(QUARTER, touching)),
          drillBar(played(WHOLE, touching)),
        ],
      },
    ],
  };
}
