import type { SyntaxCode } from './problems';

/**
 * Slips whose cure writes the very same thing in the language's spelling, so that no note, duration or mark can be another
 * than was meant: all that a code reports, or what `is` finds among it. Every other cure is a guess, however likely.
 */
const SURE: { readonly [code in SyntaxCode]?: (written: string, cured: string) => boolean } = {
  'colon-missing': () => true,
  'motif-equals': () => true,
  'hints-empty': () => true,
  'duration-dots': () => true,
  // H is another note in another country, and so is a small b.
  'pitch-letter': (written, cured) => written.toUpperCase() === cured.toUpperCase() && !/^b/.test(written),
  accidental: (written, cured) => signs(written) === signs(cured),
  'circle-misplaced': (written, cured) => cured.endsWith('o') && written.slice(0, -1) === cured.slice(0, -1),
  'unknown-hint': (written, cured) => written.replace(/\s+/g, '-') === cured,
  stray: (written) => /^[,;]+$/.test(written),
};

/** Does the cure of a slip write the very same thing? */
export function isSure(code: string, written: string, cured: string): boolean {
  return SURE[code as SyntaxCode]?.(written, cured) ?? false;
}

/** A pitch with its accidental in the signs of this language; only the printed signs are put so, since words depend on the country. */
function signs(pitch: string): string {
  return pitch
    .replaceAll('♯', '#')
    .replaceAll('♭', 'b')
    .replaceAll('𝄪', '##')
    .replaceAll('𝄫', 'bb')
    .replaceAll('♮', '')
    .replace(/x(?=\d)/, '##');
}
