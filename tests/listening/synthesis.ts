import { contactPoint, forceWindow, impedance } from '../../server/instrument/bow';
import { CONSTANTS } from '../../server/instrument/constants';
import { renderString } from '../../server/instrument/waveguide';
import type { SceneBoard } from '../../server/protocol/scene';
import type { Chance } from './chance';
import type { Performance, Played } from './performance';

export type Method = 'string' | 'partials';

export interface Recorded {
  readonly rate: number;
  readonly method: Method;
  /** dB of signal to noise; none unless set. */
  readonly noise?: number;
  readonly room?: boolean;
}

const LOUDNESS: Readonly<Record<string, number>> = { pp: 0.3, p: 0.42, mp: 0.55, mf: 0.7, f: 0.85, ff: 1 };
const FALL = 0.05;

/** A performance as samples. */
export function record(chance: Chance, board: SceneBoard, { played, seconds }: Performance, how: Recorded): Float32Array {
  const { rate } = how;
  const mix = new Float32Array(Math.ceil(seconds * rate));
  const body = bodyOf(chance);
  for (const note of played) {
    const tone = toneOf(chance, board, note, how, body);
    const start = Math.round(note.at * rate);
    for (let i = 0; i < tone.length && start + i < mix.length; i++) mix[start + i]! += tone[i]!;
  }
  if (how.room) reverberate(chance, mix, rate);
  if (how.noise !== undefined) addNoise(chance, mix, how.noise, played, rate);
  const peak = mix.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-9);
  return mix.map((value) => (value / peak) * 0.8);
}

function toneOf(chance: Chance, board: SceneBoard, note: Played, how: Recorded, body: Body): Float32Array {
  const { rate } = how;
  const out = new Float32Array(Math.max(0, Math.floor((note.seconds + FALL) * rate)));
  const speaks = Math.round(note.delay * rate);
  const gain = 0.3 * (LOUDNESS[note.dynamic] ?? 0.7) * chance.between(0.75, 1.2);
  if (note.hz > 0) {
    const length = out.length - speaks;
    const tone = how.method === 'string' ? stringTone(board, note, length, rate) : partialTone(chance, note, length, rate, body);
    const rise = Math.round(chance.between(0.01, 0.035) * rate);
    const fall = Math.round(FALL * rate);
    for (let i = 0; i < length; i++)
      out[speaks + i] = gain * tone[i]! * Math.min(1, i / rise) * Math.min(1, Math.max(0, (length - i) / fall));
  }
  // Before it speaks the bow scratches: noise with hardly any pitch.
  for (let i = 0, low = 0; i < speaks; i++) {
    low = 0.7 * low + 0.3 * chance.normal();
    out[i] = out[i]! + 0.12 * gain * low * Math.min(1, i / (0.01 * rate));
  }
  return out;
}

/** The project's own string, bowed, stopped and touched as the fault has it, its time bent for the vibrato. */
function stringTone(board: SceneBoard, note: Played, length: number, rate: number): Float32Array {
  const { scene, partial } = note;
  const string = board.strings[scene.stringIndex]!;
  const sounding = { family: board.family, string, length: scene.length, partial };
  const distance = contactPoint(sounding).best;
  const worked = Math.min(length / rate + 0.1, 1);
  const sound = renderString({
    length: scene.length,
    hz: note.hz / partial,
    impedance: impedance(string),
    ...(partial > 1 && { touch: { mm: scene.length * touched(note), width: board.contact } }),
    by: { distance, speed: CONSTANTS.bowSpeed.value, force: forceWindow(sounding, distance).best },
    seconds: worked,
    sampleRate: rate,
  });
  return bent(repeated(sound, length + Math.round(0.05 * rate), rate, note.hz / partial), note, length, rate);
}

/** Where the finger touches to sound the partial: where it is written, or at the first node of another. */
function touched({ scene, partial }: Played): number {
  if (partial !== scene.partial) return 1 / partial;
  const [k = 0, n = 1] = (scene.touch?.fraction ?? '0/1').split('/').map(Number);
  return k / n;
}

/** The last third of a second over and over, a whole number of periods at a time. */
function repeated(sound: Float32Array, length: number, rate: number, hz: number): Float32Array {
  const period = rate / hz;
  const fade = Math.round(0.08 * rate);
  const take = Math.round(Math.floor((0.3 * rate) / period) * period);
  const out = new Float32Array(length);
  out.set(sound.subarray(0, length));
  for (let at = sound.length - fade; at < length; at += take)
    for (let i = 0; i < take + fade && at + i < length; i++) {
      const value = sound[sound.length - take - fade + i] ?? 0;
      out[at + i] = i < fade ? out[at + i]! * (1 - i / fade) + value * (i / fade) : value;
    }
  return out;
}

function bent(sound: Float32Array, { vibrato }: Played, length: number, rate: number): Float32Array {
  if (vibrato.depth === 0) return sound.subarray(0, length);
  const swing = ((vibrato.depth / 1200) * Math.LN2) / (2 * Math.PI * vibrato.rate);
  const phase = 1.3;
  return Float32Array.from({ length }, (_, i) => {
    const t = i / rate;
    const at = (t + swing * (Math.sin(2 * Math.PI * vibrato.rate * t + phase) + 1)) * rate;
    const low = Math.floor(at);
    return (sound[low] ?? 0) * (1 - at + low) + (sound[low + 1] ?? 0) * (at - low);
  });
}

/** Resonances of a made-up body, Hz and dB. */
type Body = readonly { readonly hz: number; readonly width: number; readonly db: number }[];

function bodyOf(chance: Chance): Body {
  return Array.from({ length: 7 }, (_, i) => ({
    hz: 250 * 1.7 ** i * chance.between(0.85, 1.2),
    width: chance.between(0.1, 0.4),
    db: chance.between(-9, 9),
  }));
}

/** Sines of a falling spectrum through the body, a little unsteady, under the hiss of the hair: knows nothing of strings. */
function partialTone(chance: Chance, { hz, vibrato }: Played, length: number, rate: number, body: Body): Float32Array {
  const out = new Float32Array(length);
  const slope = chance.between(0.9, 1.7);
  const phase = chance.between(0, 2 * Math.PI);
  const swing = ((vibrato.depth / 1200) * Math.LN2) / (2 * Math.PI * vibrato.rate);
  let loudest = 0;
  for (let n = 1; n * hz < Math.min(12_000, rate / 2.2) && n <= 30; n++) {
    const db = body.reduce((sum, each) => sum + each.db * Math.exp(-((Math.log((n * hz) / each.hz) / each.width) ** 2)), 0);
    const amplitude = n ** -slope * 10 ** (db / 20) * chance.between(0.7, 1.3);
    const own = chance.between(0, 2 * Math.PI);
    loudest += amplitude;
    for (let i = 0; i < length; i++) {
      const t = i / rate;
      const bow = vibrato.depth === 0 ? t : t - swing * Math.cos(2 * Math.PI * vibrato.rate * t + phase);
      out[i]! += amplitude * Math.sin(2 * Math.PI * n * hz * bow + own);
    }
  }
  let low = 0;
  for (let i = 0; i < length; i++) {
    low = 0.6 * low + 0.4 * chance.normal();
    out[i] = (out[i]! / Math.max(1e-9, loudest)) * 1.6 + 0.006 * low;
  }
  return out;
}

/** A small hall: four combs and an all-pass after M. R. Schroeder (Natural sounding artificial reverberation, JAES 10, 1962; from memory). */
function reverberate(chance: Chance, mix: Float32Array, rate: number): void {
  const dry = mix.slice();
  const last = chance.between(0.35, 0.7);
  for (const delay of [0.0297, 0.0371, 0.0411, 0.0437]) {
    const length = Math.round(delay * chance.between(0.95, 1.05) * rate);
    const back = 10 ** ((-3 * delay) / last);
    const comb = new Float32Array(mix.length);
    for (let i = length; i < mix.length; i++) {
      comb[i] = dry[i - length]! + back * comb[i - length]!;
      mix[i]! += 0.1 * comb[i]!;
    }
  }
}

function addNoise(chance: Chance, mix: Float32Array, db: number, played: readonly Played[], rate: number): void {
  let power = 0;
  let count = 0;
  for (const { at, seconds, hz } of played) {
    if (hz === 0) continue;
    for (let i = Math.round(at * rate); i < Math.min(mix.length, (at + seconds) * rate); i++, count++) power += mix[i]! ** 2;
  }
  const amplitude = Math.sqrt(power / Math.max(1, count)) * 10 ** (-db / 20);
  for (let i = 0; i < mix.length; i++) mix[i]! += amplitude * chance.normal();
}
