import { t } from '../../l10n/translate';
import { ByteSource } from './byte-source';
import { readFlac } from './flac/flac';
import { UnreadableAudio } from './unreadable-audio';
import { readWav } from './wav';

/** One voice of a recording, as it streams in. */
export interface Sound {
  /** Samples a second. */
  readonly rate: number;
  /** Seconds, where the file says so before it is read. */
  readonly seconds?: number;
  /** Samples, -1 to 1, all channels mixed into one. */
  readonly blocks: AsyncIterable<Float32Array>;
}

/** Samples a second that a recording may have: enough for the partials that tell notes apart, and no more than studios use. */
const RATES = { least: 22_050, most: 192_000 } as const;

/** What other files begin with, and what they are. */
const OTHERS: readonly (readonly [start: string, article: 'a' | 'an', name: string])[] = [
  ['ID3', 'an', 'MP3'],
  ['\u00ff\u00fb', 'an', 'MP3'],
  ['OggS', 'an', 'Ogg'],
  ['FORM', 'an', 'AIFF'],
  ['RF64', 'an', 'RF64'],
  ['caff', 'a', 'Core Audio'],
  ['\u001aE\u00df\u00a3', 'a', 'WebM'],
];

/**
 * A WAV or FLAC file, told by its first bytes, whatever its name.
 *
 * @throws UnreadableAudio for anything else, and while streaming where the file turns out broken
 */
export async function openSound(bytes: AsyncIterable<Uint8Array>): Promise<Sound> {
  const source = new ByteSource(bytes);
  const start = Array.from(await source.peek(12), (byte) => String.fromCharCode(byte)).join('');
  if (start === '') throw new UnreadableAudio(t('The file is empty.'));
  const sound = await opened(source, start);
  if (sound.rate < RATES.least || sound.rate > RATES.most)
    throw new UnreadableAudio(
      t('It has {rate} samples a second; from {least} to {most} can be read. Record at 44100 or 48000.', {
        rate: sound.rate,
        least: RATES.least,
        most: RATES.most,
      }),
    );
  return sound;
}

async function opened(source: ByteSource, start: string): Promise<Sound> {
  if (start.startsWith('RIFF') && start.slice(8) === 'WAVE') return readWav(source);
  if (start.startsWith('fLaC')) return readFlac(source);
  const [, article, name] =
    OTHERS.find(([begins]) => start.startsWith(begins)) ?? (start.slice(4, 8) === 'ftyp' ? ['', 'an', 'MP4'] : []);
  throw new UnreadableAudio(
    name === undefined
      ? t('It is neither a WAV nor a FLAC file. Save the recording as WAV.')
      : article === 'a'
        ? t('It is a {name} file, and only WAV and FLAC are read. Save the recording as WAV first.', { name })
        : t('It is an {name} file, and only WAV and FLAC are read. Save the recording as WAV first.', { name }),
  );
}
