import { pitchName, spell } from '../../server/music/pitch';
import { random } from './mixed';

const range = (low: number, high: number) => Array.from({ length: high - low + 1 }, (_, up) => low + up);
const name = (key: number) => pitchName(spell(key));

/** More than 250 different notes as an étude may have them: stopped, in harmonics as they sound and as they are printed, two at a time. */
export const WORDS: readonly string[] = [
  ...range(55, 93).map(name),
  ...range(56, 92).map((key) => pitchName(spell(key, true))),
  ...range(76, 103).map((key) => `${name(key)}o`),
  ...[5, 7].flatMap((above) => range(57, 80).map((key) => `${name(key)}<>${name(key + above)}`)),
  ...[3, 4, 7, 8, 9, 12].flatMap((above) => range(58, 78).map((key) => `${name(key)}+${name(key + above)}`)),
].filter((word, at, all) => all.indexOf(word) === at);

/** A file of so many notes, a bar of eight on each line, always the same. */
export function variedFile(notes: number, seed = 5): string {
  const next = random(seed);
  const line = () => `1/8 ${Array.from({ length: 8 }, () => WORDS[Math.floor(next() * WORDS.length)]).join(' ')} |`;
  return ['instrument: violin', 'tempo: 1/4 = 72', ...Array.from({ length: Math.ceil(notes / 8) }, line), ''].join('\n');
}
