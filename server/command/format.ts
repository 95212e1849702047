import { formatted } from '../../grammar/format';
import { parse } from '../../grammar/parse';
import { CannotRun, EXIT } from './cannot-run';
import { differences } from './differences';
import { findInputs, inputName, readBytes, STANDARD_INPUT, strictText } from './inputs';
import { replaceFile } from './replace-file';
import { complain, say } from './say';

export interface FormatOptions {
  readonly check?: boolean;
  readonly diff?: boolean;
  readonly stdinFilepath?: string;
}

/** `passagework format`: the usual spacing, written back; of standard input, on standard output. A file that can't be read keeps no other from its turn. */
export async function runFormat(words: readonly string[], { check, diff, stdinFilepath }: FormatOptions): Promise<number> {
  const names = await findInputs(words);
  let [changed, refused] = [0, 0];
  for (const name of names) {
    try {
      const as = name === STANDARD_INPUT ? (stdinFilepath ?? name) : name;
      const bytes = readBytes(name);
      const { text: before, mark } = strictText(bytes, as);
      const text = formatted(parse(before));
      if (name === STANDARD_INPUT && !check && !diff) process.stdout.write(mark + text);
      if (text === before) continue;
      changed++;
      if (diff) console.log(differences([{ name, as, text, before }]));
      else if (check) say(`${inputName(as)} is not in its usual form.`);
      else if (name !== STANDARD_INPUT) {
        replaceFile(name, mark + text, bytes);
        say(`${name} formatted.`);
      }
    } catch (error) {
      if (!(error instanceof CannotRun)) throw error;
      complain(error.message);
      refused++;
    }
  }
  if (refused > 0) return EXIT.cannotRun;
  return changed > 0 && (check || diff) ? EXIT.findings : EXIT.clean;
}
