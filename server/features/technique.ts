import { type BowAdvice, type BowedNote, bowAdvice, contactPoint } from '../instrument/bow';
import type { Instrument } from '../instrument/instrument';
import { feelsLike, partialSemitones } from '../instrument/nodes';
import { ONE_SPOT, touchToStop } from '../instrument/offset';
import { centsPerMm } from '../instrument/places';
import { pitchName } from '../music/pitch';
import type { Passage } from '../passage/passage';
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

/** What the bow does: for a harmonic, against the note beside it; nothing for a note that is bowed as usual. */
export function bowing(way: Way, instrument: Instrument, beside: Way | undefined): readonly string[] {
  if (way.partial === 1) return [];
  const note = bowed(way, instrument);
  const { nearest, farthest, dead } = contactPoint(note);
  const advice = bowAdvice(note, beside ? bowed(beside, instrument) : { ...note, length: instrument.length, partial: 1 });
  const against = beside ? `${printedPitch(pitchName(beside.sounding))} beside it` : 'the open string';
  return [
    `Bow ${mmWords(nearest)} to ${mmWords(farthest)} from the bridge${dead === undefined ? '' : `; at ${mmWords(dead)} this note cannot sound`}.`,
    `Against ${against}: ${changes(advice)}.`,
  ];
}

function changes({ move, speed, force }: BowAdvice): string {
  const words: string[] = [];
  if (Math.abs(move) >= 1) words.push(`${mmWords(Math.abs(move))} nearer the ${move < 0 ? 'bridge' : 'fingerboard'}`);
  const manner = [speed, force].filter((word) => word !== 'same');
  if (manner.length) words.push(`a ${manner.join(', ')} bow`);
  return words.length ? listed(words) : 'the same bow';
}

function bowed(way: Way, { family, strings }: Instrument): BowedNote {
  // A way's string is an index into these very strings.
  const string = strings[way.string] as Instrument['strings'][number];
  return { family, string, length: way.length, partial: way.partial };
}

/** The nearest note before or after an event that is stopped or open: what the bow was last used to. */
export function plainNoteBeside(solution: Solution, event: number): Way | undefined {
  for (const at of [event - 1, event + 1]) {
    const way = solution.events[at]?.fingering.ways.find(({ partial }) => partial === 1);
    if (way) return way;
  }
  return undefined;
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
