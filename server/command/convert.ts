import { extname } from 'node:path';
import { version } from '../../package.json';
import { FORMATS, type Format } from '../exchange/formats';
import { lossText } from '../exchange/musicxml/losses';
import { readMusicXml } from '../exchange/musicxml/read';
import { Unreadable } from '../exchange/unreadable';
import { TooLong } from '../exchange/wav';
import { CannotRun, EXIT } from './cannot-run';
import { findInputs, readBytes, STANDARD_INPUT, textOf } from './inputs';
import { type PlayerOptions, playerFrom } from './options';
import { checkOutput, writeOutput } from './output';
import { study } from './study';

export interface ConvertOptions extends PlayerOptions {
  readonly to?: string;
  readonly out?: string;
  readonly part?: string | number;
  readonly force?: boolean;
}

/** One file to write: its content, and what tells it from its fellows of the same source. */
interface Made {
  readonly content: string | Uint8Array;
  readonly suffix: string;
}

const SCORES = ['musicxml', 'mxl', 'xml'];

/** `passagework convert`: scores to passage text, passages to what `--to` says, each beside its source. */
export async function convert(words: readonly string[], options: ConvertOptions): Promise<number> {
  const { to = 'musicxml' } = options;
  const format = Object.hasOwn(FORMATS, to) ? FORMATS[to as keyof typeof FORMATS] : undefined;
  if (to !== 'passage' && !format) throw new CannotRun(`--to: ${to} is none of passage, ${Object.keys(FORMATS).join(', ')}.`);
  const names = await findInputs(words, options.to === 'passage' ? SCORES : ['passage']);
  if (options.out !== undefined && names.length > 1)
    throw new CannotRun('--out names one file, and there is more than one to convert: leave it out.');
  for (const name of names) {
    const bytes = readBytes(name);
    const score = isScore(name, bytes);
    const made = score ? [fromScore(name, bytes, options)] : fromPassage(textOf(bytes), name, format, options);
    const extension = score || !format ? 'passage' : format.extension;
    if (name === STANDARD_INPUT && options.out === undefined) for (const { content } of made) process.stdout.write(content);
    else deliver(made, { name, extension, names }, options);
  }
  return EXIT.clean;
}

function fromScore(name: string, bytes: Uint8Array, { part }: ConvertOptions): Made {
  try {
    const imported = readMusicXml(bytes, part === undefined ? {} : { part: String(part) });
    for (const loss of imported.losses) console.error(`${shown(name)}: ${lossText(loss)}`);
    return { content: imported.text, suffix: '' };
  } catch (error) {
    if (error instanceof Unreadable) throw new CannotRun(`${shown(name)}: ${error.message}`);
    throw error;
  }
}

function fromPassage(text: string, name: string, format: Format | undefined, options: ConvertOptions): readonly Made[] {
  if (!format) throw new CannotRun('This is passage text already. Say what it should become: --to musicxml.');
  const { solutions, resolved } = study(text, playerFrom(options), name);
  if (solutions.length === 0) throw new CannotRun('There is no passage in it to convert.');
  if (solutions.length > 1 && name === STANDARD_INPUT && options.out === undefined)
    throw new CannotRun(`There are ${solutions.length} passages in it, each a score of its own: say with --out where they go.`);
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
  { name, extension, names }: { readonly name: string; readonly extension: string; readonly names: readonly string[] },
  { out, force }: ConvertOptions,
): void {
  const wanted = out ?? `${without(name)}.${extension}`;
  const pathOf = ({ suffix }: Made) => `${without(wanted)}${suffix}${extname(wanted) || `.${extension}`}`;
  for (const one of made) checkOutput({ path: pathOf(one), force, sources: names });
  for (const one of made) {
    writeOutput(pathOf(one), one.content);
    console.log(`${shown(name)} -> ${pathOf(one)}`);
  }
}

/** A path without its ending. */
function without(path: string): string {
  return path.slice(0, path.length - extname(path).length);
}

function isScore(name: string, bytes: Uint8Array): boolean {
  if (name !== STANDARD_INPUT) return SCORES.some((extension) => name.toLowerCase().endsWith(`.${extension}`));
  // XML begins with a bracket, a compressed score with the mark of its archive.
  const start = String.fromCharCode(...bytes.subarray(0, 64)).replace(/^[\u00ef\u00bb\u00bf\s]+/, '');
  return start.startsWith('<?xml') || start.startsWith('<!') || start.startsWith('<score') || start.startsWith('PK');
}

function shown(name: string): string {
  return name === STANDARD_INPUT ? 'standard input' : name;
}
