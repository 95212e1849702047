import { CannotRun } from './cannot-run';

/** A text as it stands in a file, and the byte order mark that stood before it. */
export interface Decoded {
  readonly text: string;
  readonly mark: '' | '\uFEFF';
}

/**
 * Text is UTF-8 and nothing is guessed: what can't be read exactly could not be written back exactly. A byte order mark is
 * no part of the text (editors don't count it as a column either), but it belongs to the file.
 *
 * @throws CannotRun naming the encoding that it looks like
 */
export function decode(bytes: Uint8Array, name: string): Decoded {
  const other = otherEncoding(bytes);
  if (other) throw new CannotRun(`${name} can't be read: it is written in ${other}, and passages are UTF-8. ${ADVICE}`);
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return text.startsWith('\uFEFF') ? { text: text.slice(1), mark: '\uFEFF' } : { text, mark: '' };
  } catch {
    const { line, byte } = firstWrong(bytes);
    const why = `the byte 0x${byte.toString(16).toUpperCase()} on line ${line} is not UTF-8, so it is probably written in Latin-1 or another one-byte encoding`;
    throw new CannotRun(`${name} can't be read: ${why}. ${ADVICE}`);
  }
}

const ADVICE = 'Save it as UTF-8 from your editor; nothing was changed.';

/** UTF-16 and UTF-32 by their mark, or by the zeros that every other letter of theirs has. */
function otherEncoding(bytes: Uint8Array): string | undefined {
  const [a, b, c, d] = bytes;
  if (a === 0xff && b === 0xfe) return c === 0 && d === 0 ? 'UTF-32' : 'UTF-16';
  if (a === 0xfe && b === 0xff) return 'UTF-16';
  const start = bytes.subarray(0, 64);
  const zeros = (odd: number) => start.filter((byte, index) => index % 2 === odd && byte === 0).length;
  return start.length >= 4 && [0, 1].some((odd) => zeros(odd) >= start.length / 2 - 1) ? 'UTF-16' : undefined;
}

/** Where the first byte stands that no UTF-8 text has at its place. */
function firstWrong(bytes: Uint8Array): { readonly line: number; readonly byte: number } {
  // What decodes with a replacement sign at its end, and did not without its last byte: found by halves.
  const decodes = (length: number) => {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  let [good, bad] = [0, bytes.length];
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (decodes(middle)) good = middle;
    else bad = middle;
  }
  const line = bytes.subarray(0, good).reduce((count, byte) => count + (byte === 0x0a ? 1 : 0), 1);
  return { line, byte: bytes[good] ?? 0 };
}
