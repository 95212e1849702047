import { type BowAdvice, type BowedNote, bowAdvice } from '../instrument/bow';
import type { Instrument } from '../instrument/instrument';
import { feelsLike, partialSemitones } from '../instrument/nodes';
import { ONE_SPOT, touchToStop } from '../instrument/offset';
import { centsPerMm } from '../instrument/places';
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
      return [`Open ${way.stringName} string: no finger down.`];
    case 'stopped':
      return stop
        ? [`Stop ${way.stringName} with the ${fingerWords(String(stop.finger))}, ${mmWords(stop.mm)} from the nut.`]
        : [];
    case 'natural':
      return touch
        ? [
            `Touch ${way.stringName} with the ${fingerWords(String(touch.finger))} at ${touch.k}/${touch.n} of the string, ${mmWords(touch.mm)} from the nut.`,
            feel(touch.k, touch.n, instrument.length, pitchName(touch.pitch)),
            'Only touch: lift the finger once the note has spoken, and it rings on.',
          ]
        : [];
    case 'artificial':
      return stop && touch
        ? [
            `Stop ${printedPitch(pitchName(stop.pitch))} on ${way.stringName} with the ${fingerWords(String(stop.finger))} (${mmWords(stop.mm)} from the nut), touch a ${intervalWords(way.interval)} above it with the ${fingerWords(String(touch.finger))} (${mmWords(touch.mm)}): ${mmWords(touch.mm - stop.mm)} between them.`,
            `The pitch follows the stopping finger, ${centsPerMm(way.length).toFixed(1)} cents for every mm, so set it firmly; the touching finger decides only whether the note speaks.${leaning(way)}`,
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
  const where = mm > 0 ? 'nut' : 'bridge';
  return ` For the harmonic to be in tune it stands ${mmWords(Math.abs(mm))} nearer the ${where} than for a plain ${printedPitch(pitchName(stop.pitch))}.`;
}

/** Where the point of division lies against the place of the stopped note that it feels like: a place past the node leaves the node nearer the nut. */
function feel(k: number, n: number, length: number, pitch: string): string {
  const { fingerOffset: offset } = feelsLike(k, n, length);
  const where =
    Math.abs(offset) < 0.5 ? 'just where' : `${mmWords(Math.abs(offset))} nearer the ${offset > 0 ? 'nut' : 'bridge'} than`;
  return `That is ${where} ${printedPitch(pitch)} would be stopped.`;
}

/** What the bow does for a harmonic, in a player's words first; nothing for a note that is bowed as usual. */
export function bowing(way: Way, instrument: Instrument, { dynamic, slide, plucked }: EventSpec): readonly string[] {
  if (way.partial === 1) return [];
  if (plucked) return [PLUCKED];
  const { contact, place, speed, force } = bowAdvice(bowed(way, instrument), instrument.length, dynamic);
  const { nearest, farthest, dead = 0 } = contact;
  const manner = [speed, force].filter((word) => word !== 'same');
  const changed = manner.length ? `, ${listed(manner)} than for a stopped note on this string` : '';
  const silent = dead < 2 * farthest ? `; ${mmWords(dead)} from it this note cannot sound` : '';
  return [
    `Bow ${PLACES[place]}${changed}: ${Math.round(nearest)} to ${mmWords(farthest)} from the bridge${silent}.`,
    ...(slide ? [ARRIVAL] : []),
  ];
}

/** Common practice, no source. */
const PLUCKED =
  'Pluck with the finger still touching, nearer the bridge than usual, and take it off at once: the harmonic rings on.';

const PLACES: Readonly<Record<BowAdvice['place'], string>> = {
  usual: 'at the usual place',
  nearer: 'a little nearer the bridge than usual',
  bridge: 'well toward the bridge',
};

/** Common practice, no source; that a harmonic stays for a while when the finger has left: Journal of the Acoustical Society of America, 2023 (doi 10.1121/10.0023745). */
const ARRIVAL = 'Give the bow more speed as the slide arrives, and take the finger off as the note speaks: it rings on.';

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
  const move = `${mmWords(Math.abs(toNut))} toward the ${toNutNow > 0 ? 'nut' : 'bridge'}`;
  const kind = other.kind === 'natural' ? 'harmonic' : 'stopped note';
  return follows
    ? `The ${kind} ${name} follows on the same spot: the finger goes ${move}.`
    : `The ${kind} ${name} before it is on the same spot: the finger has come ${move}.`;
}
