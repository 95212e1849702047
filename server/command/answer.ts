import { checkOutput } from './output';
import { replaceFile } from './replace-file';

export interface AnswerOptions {
  readonly outputFile?: string;
  readonly force?: boolean;
}

/** Refuses a file for the answer before any work is done for it. */
export function checkAnswer({ outputFile, force }: AnswerOptions, sources: readonly string[]): void {
  if (outputFile !== undefined) checkOutput({ path: outputFile, option: '--output-file', force, sources });
}

/** The answer of a command, on standard output or in the file that `--output-file` names. It is text that may be shown as it is. */
export function answerTo({ outputFile }: AnswerOptions, text: string): void {
  if (outputFile === undefined) console.log(text);
  else replaceFile(outputFile, `${text}\n`);
}
