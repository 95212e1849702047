import { t } from '../l10n/translate';
import { isAbc, readAbc } from './abc/read';
import { isMidi, readMidi } from './midi/read';
import { readMusicXml } from './musicxml/read';
import { type ImportChoice, type Imported, passageOf } from './score/passage-of';
import type { Score, TuneName } from './score/score';
import { Unreadable } from './unreadable';

/** Endings of the files that are read. */
export const SCORES = ['musicxml', 'mxl', 'xml', 'mid', 'midi', 'abc'] as const;

/**
 * Reads one part of a score as the text of a passage: MusicXML (.musicxml, .xml, .mxl), a Standard MIDI File or
 * ABC. Which of them it is, its first bytes say, whatever its name.
 *
 * @throws Unreadable where the file is none of them, is damaged, or asks more of the machine than a score may.
 */
export function importScore(source: Uint8Array | string, choice: ImportChoice = {}): Imported {
  return passageOf(readScore(source, choice.tune), choice);
}

/** The same of every tune of an ABC text, in the order of the file. */
export function importTunes(source: Uint8Array | string, choice: ImportChoice = {}): readonly (Imported & TuneName)[] {
  const { tunes } = isAbc(source) ? importScore(source) : { tunes: [] };
  if (tunes.length === 0) throw new Unreadable(t('Only an ABC file whose tunes have numbers (X:) holds several tunes.'));
  return tunes.map((tune) => ({ ...passageOf(readAbc(source, tune.number, false), choice), ...tune }));
}

/** True for bytes that begin as one of these does. */
export function isScore(bytes: Uint8Array): boolean {
  // XML begins with a bracket, a compressed score with the mark of its archive.
  const start = String.fromCharCode(...bytes.subarray(0, 64)).replace(/^[\u00ef\u00bb\u00bf\s]+/, '');
  return isMidi(bytes) || /^(?:<\?xml|<!|<score|PK)/.test(start) || isAbc(bytes);
}

function readScore(source: Uint8Array | string, tune: string | undefined): Score {
  const midi = typeof source !== 'string' && isMidi(source);
  if (!midi && isAbc(source)) return readAbc(source, tune);
  if (tune !== undefined)
    throw new Unreadable(t('Only an ABC file holds several tunes to choose from: leave the number of the tune out.'));
  return midi ? readMidi(source) : readMusicXml(source);
}
