import { contactPoint, forceWindow, impedance } from '../../instrument/bow';
import { CONSTANTS } from '../../instrument/constants';
import { renderString } from '../../instrument/waveguide';
import type { SceneBoard, SceneNote } from '../../protocol/scene';

/** A bowed note is worked out no longer than this, s; what lasts longer goes on in the same swing. */
const WORKED_OUT = 1.4;
/** The steady part that is taken over and over, s, and how long one take fades into the next. */
const STEADY_FROM = 0.7;
const FADE = 0.15;
/** Rise and fall of a note, s. */
const RISE = 0.012;
const FALL = 0.06;
/** Loudness by dynamic; a whole range would leave the soft end unheard on small loudspeakers. */
const LOUDNESS: Readonly<Record<string, number>> = {
  ppp: 0.22,
  pp: 0.3,
  p: 0.42,
  mp: 0.55,
  mf: 0.7,
  f: 0.85,
  ff: 1,
  fff: 1.1,
};

/**
 * The sound of one note, -1 to 1: the string as it is stopped and touched, bowed where the model says this note is
 * best bowed. True to the cent: pitch is what string and fingers give, the string's stiffness included, not
 * what is written. `seconds` of it, at `sampleRate` samples a second.
 */
export function renderTone(
  board: SceneBoard,
  note: SceneNote,
  dynamic: string,
  seconds: number,
  sampleRate: number,
  plucked = false,
): Float32Array {
  const string = board.strings[note.stringIndex];
  if (!string || seconds <= 0) return new Float32Array(0);
  const bowed = { family: board.family, string, length: note.length, partial: note.partial };
  const distance = contactPoint(bowed).best;
  const [k = 0, n = 1] = (note.touch?.fraction ?? '0/1').split('/').map(Number);
  const hz = note.hz / note.partial;
  const sound = renderString({
    length: note.length,
    hz,
    impedance: impedance(string),
    ...(note.touch && { touch: { mm: (note.length * k) / n, width: board.contact, ...(plucked && { lifts: LIFTED }) } }),
    by: plucked
      ? { distance: PLUCKED_AT * note.length }
      : { distance, speed: CONSTANTS.bowSpeed.value, force: forceWindow(bowed, distance).best },
    seconds: Math.min(seconds, WORKED_OUT),
    sampleRate,
  });
  if (plucked) return shaped(ringing(sound, seconds, sampleRate), LOUDNESS[dynamic] ?? 0.7, sampleRate);
  return shaped(seconds > WORKED_OUT ? goneOn(sound, seconds, sampleRate, hz) : sound, LOUDNESS[dynamic] ?? 0.7, sampleRate);
}

/** Where a string is plucked, as a share of what sounds; and how soon its sound falls to a third, s. Assumptions: over the end of the fingerboard, by ear. */
const PLUCKED_AT = 0.22;
const RINGS = 0.35;
/** After so many s the finger leaves a plucked harmonic. */
const LIFTED = 0.1;

/** A plucked string dies away, however long the note is written. */
function ringing(sound: Float32Array, seconds: number, sampleRate: number): Float32Array {
  const out = new Float32Array(Math.floor(seconds * sampleRate));
  out.set(sound.subarray(0, out.length));
  return out.map((value, i) => value * Math.exp(-i / (RINGS * sampleRate)));
}

/** The same note so many semitones higher, stopped so much nearer the bridge. */
export function raised(note: SceneNote, above: number): SceneNote {
  const by = 2 ** (above / 12);
  return above === 0 ? note : { ...note, hz: note.hz * by, length: note.length / by };
}

/** Goes on with the steady part, each take a whole number of periods later than the last so that they fade in step. */
function goneOn(sound: Float32Array, seconds: number, sampleRate: number, hz: number): Float32Array {
  const out = new Float32Array(Math.floor(seconds * sampleRate));
  out.set(sound.subarray(0, out.length));
  const fade = Math.floor(FADE * sampleRate);
  const from = Math.floor(STEADY_FROM * sampleRate);
  const period = sampleRate / hz;
  const take = Math.round(Math.floor((sound.length - from - fade) / period) * period);
  if (take <= fade) return out;
  for (let at = sound.length - fade; at < out.length; at += take) {
    for (let i = 0; i < take + fade && at + i < out.length; i++) {
      const value = sound[sound.length - take - fade + i] ?? 0;
      const share = Math.min(1, i / fade);
      out[at + i] = i < fade ? (out[at + i] as number) * (1 - share) + value * share : value;
    }
  }
  return out;
}

/** Rise, fall and loudness. */
function shaped(sound: Float32Array, loudness: number, sampleRate: number): Float32Array {
  const rise = RISE * sampleRate;
  const fall = FALL * sampleRate;
  return sound.map((value, i) => value * loudness * Math.min(1, i / rise, (sound.length - i) / fall));
}
