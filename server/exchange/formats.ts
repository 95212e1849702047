import { scenePassage } from '../scene/scene';
import type { Solution } from '../solver/solution';
import { midiFile } from './midi/write';
import { writeMusicXml } from './musicxml/write';
import { wavFile } from './wav';

/** What a format needs to know besides the passage. */
export interface Writing {
  /** The file's own title, empty where it has none. */
  readonly work: string;
  /** Of Passagework. */
  readonly version: string;
}

export interface Format {
  /** Of the files made. */
  readonly extension: string;
  /** @throws TooLong */
  write(solution: Solution, writing: Writing): Uint8Array;
}

/** What one fingered passage can become. */
export const FORMATS: Readonly<Record<'musicxml' | 'midi' | 'wav', Format>> = {
  musicxml: {
    extension: 'musicxml',
    write: (solution, { work, version }) =>
      new TextEncoder().encode(writeMusicXml(solution.passage, { solution, version, ...(work && { work }) })),
  },
  midi: { extension: 'mid', write: (solution) => midiFile(scenePassage(solution)) },
  wav: { extension: 'wav', write: (solution) => wavFile(scenePassage(solution)) },
};
