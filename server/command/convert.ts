import { existsSync, writeFileSync } from 'node:fs';
import { version } from '../../package.json';
import { midiFile } from '../exchange/midi';
import { lossText } from '../exchange/musicxml/losses';
import { readMusicXml } from '../exchange/musicxml/read';
import { writeMusicXml } from '../exchange/musicxml/write';
import { Unreadable } from '../exchange/unreadable';
import { TooLong, wavFile } from '../exchange/wav';
import type { ScenePassage } from '../protocol/scene';
import { scenePassage } from '../scene/scene';
import type { Solution } from '../solver/solution';
import type { Snapshot } from '../workspace/snapshot';
import { CannotRun, EXIT } from './cannot-run';
import { findInputs, readBytes, STANDARD_INPUT, textOf } from './inputs';
import { type PlayerOptions, playerFrom } from './options';
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

interface Target {
  /** Of the files made. */
  readonly extension: string;
  write(snapshot: Snapshot, solution: Solution): string | Uint8Array;
}

/** What a passage can become. */
const TARGETS: Readonly<Record<string, Target>> = {
  musicxml: {
    extension: 'musicxml',
    write: ({ resolved }, solution) =>
      writeMusicXml(solution.passage, { solution, version, ...(resolved.title && { work: resolved.title }) }),
  },
  midi: { extension: 'mid', write: (_, solution) => midiFile(scenePassage(solution)) },
  wav: { extension: 'wav', write: (_, solution) => recorded(scenePassage(solution)) },
};

function recorded(passage: ScenePassage): Uint8Array {
  try {
    return wavFile(passage);
  } catch (error) {
    if (error instanceof TooLong) throw new CannotRun(error.message);
    throw error;
  }
}

/** `passagework convert`: scores to passage text, passages to what `--to` says, each beside its source. */
export async function convert(words: readonly string[], options: ConvertOptions): Promise<number> {
  const to = options.to ?? 'musicxml';
  if (to !== 'passage' && !(to in TARGETS))
    throw new CannotRun(`--to: ${to} is none of passage, ${Object.keys(TARGETS).join(', ')}.`);
  const names = await findInputs(words, options.to === 'passage' ? SCORES : ['passage']);
  if (options.out !== undefined && names.length > 1)
    throw new CannotRun('--out names one file, and there is more than one to convert: leave it out.');
  for (const name of names) {
    const bytes = readBytes(name);
    const score = isScore(name, bytes);
    const made = score ? [fromScore(name, bytes, options)] : fromPassage(textOf(bytes), name, to, options);
    for (const one of made) deliver(one, name, score ? 'passage' : (TARGETS[to]?.extension ?? to), options);
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

function fromPassage(text: string, name: string, to: string, options: ConvertOptions): readonly Made[] {
  const target = TARGETS[to];
  if (!target) throw new CannotRun('This is passage text already. Say what it should become: --to musicxml.');
  const snapshot = study(text, playerFrom(options), name);
  const { solutions } = snapshot;
  if (solutions.length === 0) throw new CannotRun('There is no passage in it to convert.');
  if (solutions.length > 1 && name === STANDARD_INPUT && options.out === undefined)
    throw new CannotRun(`There are ${solutions.length} passages in it, each a score of its own: say with --out where they go.`);
  return solutions.map((solution, index) => ({
    content: target.write(snapshot, solution),
    suffix: solutions.length > 1 ? `-${index + 1}` : '',
  }));
}

/** Standard input goes to standard output; a file's conversion goes beside it, and never over another file unasked. */
function deliver({ content, suffix }: Made, name: string, extension: string, { out, force }: ConvertOptions): void {
  if (name === STANDARD_INPUT && out === undefined) {
    process.stdout.write(content);
    return;
  }
  const base = out?.replace(/\.[^.]*$/, '') ?? name.replace(/\.[^./\\]*$/, '');
  const path = `${base}${suffix}.${out?.match(/\.([^.]*)$/)?.[1] ?? extension}`;
  if (existsSync(path) && !force)
    throw new CannotRun(`${path} is there already. Choose another name with --out, or --force to write over it.`);
  writeFileSync(path, content);
  console.log(`${shown(name)} -> ${path}`);
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
