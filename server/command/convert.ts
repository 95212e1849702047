import { basename, extname } from 'node:path';
import { version } from '../../package.json';
import { FORMATS, type Format } from '../exchange/formats';
import { importScore, importTunes, isScore, SCORES } from '../exchange/import-score';
import { DIVISI, type Divisi } from '../exchange/score/divisi';
import { grouped, groupText, lossText } from '../exchange/score/losses';
import type { Imported } from '../exchange/score/passage-of';
import { Unreadable } from '../exchange/unreadable';
import { TooLong } from '../exchange/wav';
import { CannotRun, EXIT } from './cannot-run';
import { findInputs, inputName, readBytes, STANDARD_INPUT, strictText } from './inputs';
import { type PlayerOptions, playerFrom } from './options';
import { checkOutput, everythingRead, isFolderName, makeFolder, placeIn, STANDARD_OUTPUT } from './output';
import { replaceFile } from './replace-file';
import { note, say } from './say';
import { study } from './study';

export interface ConvertOptions extends PlayerOptions {
  readonly to?: string;
  readonly out?: string;
  readonly part?: string;
  readonly tune?: string;
  readonly divisi?: string;
  readonly force?: boolean;
  readonly losses?: boolean;
}

/** One file to write: its content, and what tells it from its fellows of the same source. */
interface Made {
  readonly content: string | Uint8Array;
  readonly suffix: string;
}

/** Scores that are taken out of a folder. MIDI is as often made from a passage beside it, so it is read where it is named. */
const IN_FOLDERS = SCORES.filter((extension) => !extension.startsWith('mid'));

/** `passagework convert`: scores to passage text, passages to what `--to` or else the ending of `--out` says, each beside its source. */
export async function runConvert(words: readonly string[], options: ConvertOptions): Promise<number> {
  const { out, to = formatNamed(out) ?? 'musicxml' } = options;
  const format = Object.hasOwn(FORMATS, to) ? FORMATS[to as keyof typeof FORMATS] : undefined;
  if (to !== 'passage' && !format) throw new CannotRun(`--to: ${to} is not one of passage, ${Object.keys(FORMATS).join(', ')}.`);
  const names = await findInputs(words, options.to === 'passage' ? IN_FOLDERS : ['passage'], [...SCORES, 'passage']);
  if (out !== undefined && names.length > 1 && !isFolderName(out))
    throw new CannotRun('--out names one file, and there is more than one to convert: name a folder, or leave it out.');
  const sources = everythingRead(names, options.player);
  for (const name of names) {
    const bytes = readBytes(name);
    const score = name === STANDARD_INPUT ? isScore(bytes) : hasScoreEnding(name);
    const extension = score || !format ? 'passage' : format.extension;
    if (out !== undefined && !isFolderName(out)) checkEnding(out, extension);
    const made = score ? fromScore(name, bytes, options) : fromPassage(strictText(bytes, name).text, name, format, options);
    if (isShown(name, out)) for (const { content } of made) process.stdout.write(content);
    else deliver(made, { name, extension, sources }, options);
  }
  return EXIT.clean;
}

/** What comes in without a name goes out without one, and so does what `-` says. */
function isShown(name: string, out: string | undefined): boolean {
  return out === STANDARD_OUTPUT || (name === STANDARD_INPUT && out === undefined);
}

function formatNamed(out = ''): string | undefined {
  return Object.entries(FORMATS).find(([, { extension }]) => extname(out).toLowerCase() === `.${extension}`)?.[0];
}

/** A name that says another kind of file than the one made would only mislead. */
function checkEnding(out: string, extension: string): void {
  const ending = extname(out).slice(1).toLowerCase();
  const known: readonly string[] = [...SCORES, 'passage', ...Object.values(FORMATS).map((each) => each.extension)];
  const isScoreName = extension === 'musicxml' && ending === 'xml';
  if (ending !== extension && !isScoreName && (known.includes(ending) || OTHER_KINDS.includes(ending)))
    throw new CannotRun(
      `--out: ${out} would not hold what its name says, for what is made is .${extension}. Change the name, or --to.`,
    );
}
const OTHER_KINDS = ['mp3', 'ogg', 'flac', 'aac', 'm4a', 'aiff', 'opus', 'pdf', 'html', 'png', 'svg', 'json', 'txt'];

function fromScore(name: string, bytes: Uint8Array, options: ConvertOptions): readonly Made[] {
  const { part, tune, losses, out } = options;
  const divisi = divisiNamed(options.divisi);
  const choice = { ...(part !== undefined && { part: String(part) }), ...(divisi && { divisi }) };
  const tell = (imported: Imported, which: string) => {
    const lines = losses ? imported.losses.map(lossText) : grouped(imported.losses).map(groupText);
    for (const line of lines) note(`${inputName(name)}: ${which}${line}`);
  };
  try {
    if (tune !== ALL_TUNES) {
      const imported = importScore(bytes, { ...choice, ...(tune !== undefined && { tune: String(tune) }) });
      tell(imported, '');
      return [{ content: imported.text, suffix: '' }];
    }
    const tunes = importTunes(bytes, choice);
    if (tunes.length > 1 && isShown(name, out))
      throw new CannotRun(
        `There are ${tunes.length} tunes in it, each a passage file of its own: name a folder for them with --out.`,
      );
    for (const each of tunes) tell(each, `X:${each.number}: `);
    return tunes.map(({ text, number }) => ({ content: text, suffix: tunes.length > 1 ? `-${number}` : '' }));
  } catch (error) {
    if (error instanceof Unreadable) throw new CannotRun(`${inputName(name)}: ${error.message}`);
    throw error;
  }
}

/** What `--tune` says for every tune of a file. */
const ALL_TUNES = 'all';

function divisiNamed(text: string | undefined): Divisi | undefined {
  const found = DIVISI.find((each) => each === text);
  if (text !== undefined && !found) throw new CannotRun(`--divisi: ${text} is not one of ${DIVISI.join(', ')}.`);
  return found;
}

function fromPassage(text: string, name: string, format: Format | undefined, options: ConvertOptions): readonly Made[] {
  if (!format) throw new CannotRun('This is passage text already. Say what it should become: --to musicxml.');
  const { solutions, resolved } = study(text, playerFrom(options), name);
  if (solutions.length === 0) throw new CannotRun('There is no passage in it to convert.');
  if (solutions.length > 1 && isShown(name, options.out))
    throw new CannotRun(
      `There are ${solutions.length} passages in it, each a score of its own: name a folder for them with --out.`,
    );
  try {
    return solutions.map((solution, index) => ({
      content: format.write(solution, { work: resolved.title, version }),
      suffix: solutions.length > 1 ? `-${index + 1}` : '',
    }));
  } catch (error) {
    if (error instanceof TooLong) throw new CannotRun(error.message);
    throw error;
  }
}

/** What one file of those named becomes goes where `--out` says or beside it: all of it, or nothing. */
function deliver(
  made: readonly Made[],
  { name, extension, sources }: { readonly name: string; readonly extension: string; readonly sources: readonly string[] },
  { out, force }: ConvertOptions,
): void {
  const beside = `${without(name === STANDARD_INPUT ? 'passage' : name)}.${extension}`;
  const wanted = out === undefined ? beside : placeIn(out, basename(beside));
  if (out !== undefined && isFolderName(out)) makeFolder(wanted);
  const pathOf = ({ suffix }: Made) => `${without(wanted)}${suffix}${extname(wanted) || `.${extension}`}`;
  for (const one of made) checkOutput({ path: pathOf(one), force, sources });
  for (const one of made) {
    replaceFile(pathOf(one), one.content);
    say(`${inputName(name)} -> ${pathOf(one)}`);
  }
}

/** What a file is, its name says; what comes in without one says it by its beginning. */
function hasScoreEnding(name: string): boolean {
  return SCORES.some((extension) => name.toLowerCase().endsWith(`.${extension}`));
}

/** A path without its ending. */
function without(path: string): string {
  return path.slice(0, path.length - extname(path).length);
}
