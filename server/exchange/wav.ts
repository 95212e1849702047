import { t } from '../l10n/translate';
import type { ScenePassage } from '../protocol/scene';
import { asPlayed } from '../scene/sound/as-played';
import { timelineOf } from '../scene/sound/timeline';
import { raised, renderTone } from '../scene/sound/tone';

/** Samples a second. */
const RATE = 44_100;
/** Seconds; a longer recording would not fit into a reader's memory with ease (assumption). */
const LONGEST = 1800;
/** Peak of the finished sound; a little below full scale, for the filters of players. */
const PEAK = 0.89;
const HEADER = 44;
/** Tones kept for when they come again. */
const KEPT = 64;

/** A passage that lasts too long to be recorded in one file. */
export class TooLong extends RangeError {
  override readonly name = 'TooLong';
}

/**
 * A solved passage as a WAV file (RIFF, 16 bits, 44.1 kHz, one channel): every note from the model of its
 * string as it is stopped, touched and bowed, at its true pitch, repeats twice. Events that can't be played are silent.
 *
 * @param progress is told after every note how many of all are done.
 * @throws TooLong for a passage of more than half an hour.
 */
export function wavFile(written: ScenePassage, progress?: (done: number, all: number) => void): Uint8Array {
  const { passage } = asPlayed(written);
  const { soundings, seconds } = timelineOf(passage);
  if (seconds > LONGEST) {
    throw new TooLong(
      t('“{passage}” lasts {seconds} minutes; at most {most} fit into one recording. Split it into several passages.', {
        passage: passage.title || t('Passage'),
        seconds: Math.ceil(seconds / 60),
        most: LONGEST / 60,
      }),
    );
  }
  const mix = new Float32Array(Math.ceil(seconds * RATE));
  const tones = new Map<string, Float32Array>();
  for (const [i, { event, note, at, seconds: length, above }] of soundings.entries()) {
    const scene = passage.events[event];
    const sound = scene?.notes[note];
    if (!scene || !sound) continue;
    const key = [sound.stringIndex, sound.hz, sound.touch?.fraction, scene.dynamic, scene.plucked, above, length.toFixed(6)].join(
      ' ',
    );
    const tone = tones.get(key) ?? renderTone(passage.board, raised(sound, above), scene.dynamic, length, RATE, scene.plucked);
    if (tones.size >= KEPT) tones.clear();
    tones.set(key, tone);
    const start = Math.round(at * RATE);
    for (let j = 0; j < tone.length && start + j < mix.length; j++)
      mix[start + j] = (mix[start + j] as number) + (tone[j] as number);
    progress?.(i + 1, soundings.length);
  }
  return riff(mix);
}

function riff(samples: Float32Array): Uint8Array {
  const bytes = new Uint8Array(HEADER + 2 * samples.length);
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string) => {
    for (let i = 0; i < text.length; i++) view.setUint8(at + i, text.charCodeAt(i));
  };
  word(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  word(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true); // PCM
  view.setUint16(22, 1, true);
  view.setUint32(24, RATE, true);
  view.setUint32(28, 2 * RATE, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  word(36, 'data');
  view.setUint32(40, 2 * samples.length, true);
  const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const scale = peak > PEAK ? PEAK / peak : 1;
  for (let i = 0; i < samples.length; i++)
    view.setInt16(HEADER + 2 * i, Math.round((samples[i] as number) * scale * 32_767), true);
  return bytes;
}
