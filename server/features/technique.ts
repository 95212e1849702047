import { type BowAdvice, type BowedNote, bowAdvice } from '../instrument/bow';
import type { Instrument } from '../instrument/instrument';
import { feelsLike, partialSemitones } from '../instrument/nodes';
import { ONE_SPOT, touchToStop } from '../instrument/offset';
import { centsPerMm } from '../instrument/places';
import { later, t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import type { EventSpec, Passage } from '../passage/passage';
import { fingerWords, intervalWords, listed, mmWords, printedPitch } from '../scene/words';
import type { Solution } from '../solver/solution';
import type { Way } from '../solver/way';

/** What the left hand does, in sentences a teacher would say. */
export function leftHand(way: Way, instrument: Instrument): readonly string[] {
  const { stop, touch } = way;
  switch (way.kind) {
    case 'open':
      return [t('Open {string} string: no finger down.', { string: way.stringName })];
    case 'stopped':
      return stop
        ? [
            t('Stop {string} with the {finger}, {mm} from the nut.', {
              string: way.stringName,
              finger: fingerWords(String(stop.finger)),
              mm: mmWords(stop.mm),
            }),
          ]
        : [];
    case 'natural':
      return touch
        ? [
            t('Touch {string} with the {finger} at {k}/{n} of the string, {mm} from the nut.', {
              string: way.stringName,
              finger: fingerWords(String(touch.finger)),
              k: touch.k,
              n: touch.n,
              mm: mmWords(touch.mm),
            }),
            feel(touch.k, touch.n, instrument.length, pitchName(touch.pitch)),
            t('Only touch: lift the finger once the note has spoken, and it rings on.'),
          ]
        : [];
    case 'artificial':
      return stop && touch
        ? [
            t(
              'Stop {pitch} on {string} with the {finger} ({mm} from the nut), touch a {interval} above it with the {touching} ({touched}): {apart} between them.',
              {
                pitch: printedPitch(pitchName(stop.pitch)),
                string: way.stringName,
                finger: fingerWords(String(stop.finger)),
                mm: mmWords(stop.mm),
                interval: intervalWords(way.interval),
                touching: fingerWords(String(touch.finger)),
                touched: mmWords(touch.mm),
                apart: mmWords(touch.mm - stop.mm),
              },
            ),
            t(
              'The pitch follows the stopping finger, {cents} cents for every mm, so set it firmly; the touching finger decides only whether the note speaks.',
              { cents: centsPerMm(way.length).toFixed(1) },
            ) + leaning(way),
          ]
        : [];
  }
}

/**
 * How far the stopping finger stands from the plain note that is printed, to bring the harmonic in tune: the partial is pure where
 * tempered intervals are not, and a stiff string sharpens it. Nothing below half a millimetre.
 */
function leaning({ partial, stiffness, length, stop }: Way): string {
  const exact = 1200 * Math.log2(partial) + stiffness;
  const mm = (exact - 100 * partialSemitones(partial)) / centsPerMm(length);
  if (!stop || Math.abs(mm) < 0.5) return '';
  const holes = { mm: mmWords(Math.abs(mm)), pitch: printedPitch(pitchName(stop.pitch)) };
  const where =
    mm > 0
      ? t('For the harmonic to be in tune it stands {mm} nearer the nut than for a plain {pitch}.', holes)
      : t('For the harmonic to be in tune it stands {mm} nearer the bridge than for a plain {pitch}.', holes);
  return ` ${where}`;
}

/** Where the point of division lies against the place of the stopped note that it feels like: a place past the node leaves the node nearer the nut. */
function feel(k: number, n: number, length: number, pitch: string): string {
  const { fingerOffset: offset } = feelsLike(k, n, length);
  const holes = { offset: mmWords(Math.abs(offset)), pitch: printedPitch(pitch) };
  if (Math.abs(offset) < 0.5) return t('That is just where {pitch} would be stopped.', holes);
  return offset > 0
    ? t('That is {offset} nearer the nut than {pitch} would be stopped.', holes)
    : t('That is {offset} nearer the bridge than {pitch} would be stopped.', holes);
}

/** What the bow does for a harmonic, in a player's words first; nothing for a note that is bowed as usual. */
export function bowing(way: Way, instrument: Instrument, { dynamic, slide, plucked }: EventSpec): readonly string[] {
  if (way.partial === 1) return [];
  if (plucked) return [t(PLUCKED)];
  const { contact, place, speed, force } = bowAdvice(bowed(way, instrument), instrument.length, dynamic);
  const { nearest, farthest, dead = 0 } = contact;
  const manner = [...(speed === 'faster' ? [t('faster')] : []), ...(force === 'lighter' ? [t('lighter')] : [])];
  const where = t(PLACES[place]);
  const how = manner.length
    ? t('{where}, {manner} than for a stopped note on this string', { where, manner: listed(manner) })
    : where;
  const holes = { how, nearest: Math.round(nearest), farthest: mmWords(farthest) };
  return [
    dead < 2 * farthest
      ? t('Bow {how}: {nearest} to {farthest} from the bridge; {dead} from it this note cannot sound.', {
          ...holes,
          dead: mmWords(dead),
        })
      : t('Bow {how}: {nearest} to {farthest} from the bridge.', holes),
    ...(slide ? [t(ARRIVAL)] : []),
  ];
}

/** Common practice, no source. */
const PLUCKED = later(
  'Pluck with the finger still touching, nearer the bridge than usual, and take it off at once: the harmonic rings on.',
);

const PLACES: Readonly<Record<BowAdvice['place'], string>> = {
  usual: later('at the usual place'),
  nearer: later('a little nearer the bridge than usual'),
  bridge: later('well toward the bridge'),
};

/** Common practice, no source; that a harmonic stays for a while when the finger has left: Journal of the Acoustical Society of America, 2023 (doi 10.1121/10.0023745). */
const ARRIVAL = later('Give the bow more speed as the slide arrives, and take the finger off as the note speaks: it rings on.');

function bowed(way: Way, { family, strings }: Instrument): BowedNote {
  // A way's string is an index into these very strings.
  const string = strings[way.string] as Instrument['strings'][number];
  return { family, string, length: way.length, partial: way.partial };
}

/** What the finger must do between a harmonic and a stopped note on the same spot of one string, before or after it. */
export function sameSpot(passage: Passage, solution: Solution, event: number, way: Way): readonly string[] {
  const place = way.touch ?? way.stop;
  if (!place || way.kind === 'artificial') return [];
  return [event - 1, event + 1].flatMap((at) =>
    (solution.events[at]?.fingering.ways ?? []).flatMap((other) => {
      const there = other.touch ?? other.stop;
      const pair = way.touch ? other.kind === 'stopped' : other.kind === 'natural';
      if (!there || !pair || other.string !== way.string || Math.abs(there.mm - place.mm) > ONE_SPOT) return [];
      return [spotSentence(passage, way, other, at > event)];
    }),
  );
}

function spotSentence(passage: Passage, way: Way, other: Way, follows: boolean): string {
  const { instrument } = passage.setup;
  const [touched, stopped] = way.touch ? [way, other] : [other, way];
  const string = instrument.strings[stopped.string] as Instrument['strings'][number];
  const toNut = touchToStop(instrument, string, touched.touch?.mm ?? 0, stopped.stop?.mm ?? 0);
  const toNutNow = (follows === (way === touched) ? 1 : -1) * toNut;
  const name = printedPitch(pitchName(other.sounding));
  const distance = mmWords(Math.abs(toNut));
  const move = toNutNow > 0 ? t('{distance} toward the nut', { distance }) : t('{distance} toward the bridge', { distance });
  const note = other.kind === 'natural' ? t('harmonic {name}', { name }) : t('stopped note {name}', { name });
  return follows
    ? t('The {note} follows on the same spot: the finger goes {move}.', { note, move })
    : t('The {note} before it is on the same spot: the finger has come {move}.', { note, move });
}
