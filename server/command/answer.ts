import { once } from 'node:events';
import { checkOutput, fileNamed } from './output';
import { replaceFile } from './replace-file';

export interface AnswerOptions {
  readonly outputFile?: string;
  readonly force?: boolean;
}

/** Refuses a file for the answer before any work is done for it. */
export function checkAnswer({ outputFile, force }: AnswerOptions, sources: readonly string[]): void {
  const path = fileNamed(outputFile);
  if (path !== undefined) checkOutput({ path, option: '--output-file', force, sources });
}

/** The answer of a command, on standard output or in the file that `--output-file` names. It is text that may be shown as it is. */
export function answerTo({ outputFile }: AnswerOptions, text: string): void {
  const path = fileNamed(outputFile);
  if (path === undefined) console.log(text);
  else replaceFile(path, `${text}\n`);
}

/** Where the answer is seen: colours and widths are the terminal's. A file is none. */
export function streamOf({ outputFile }: AnswerOptions): { readonly isTTY?: boolean } {
  return fileNamed(outputFile) === undefined ? process.stdout : {};
}

/** The same for an answer in pieces, which may be too long for a string. */
export async function streamTo({ outputFile }: AnswerOptions, pieces: Iterable<string>): Promise<void> {
  const path = fileNamed(outputFile);
  if (path !== undefined) return replaceFile(path, chunks(pieces));
  for (const chunk of chunks(pieces)) if (!process.stdout.write(chunk)) await once(process.stdout, 'drain');
}

/** Characters that are worth a write. */
const CHUNK = 1 << 16;

/** As few pieces as are long enough, and an end of line. */
function* chunks(pieces: Iterable<string>): Generator<string> {
  let chunk = '';
  for (const piece of pieces) {
    chunk += piece;
    if (chunk.length < CHUNK) continue;
    yield chunk;
    chunk = '';
  }
  yield `${chunk}\n`;
}
