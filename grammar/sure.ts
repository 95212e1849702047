import type { SyntaxCode } from './problems';

/**
 * Slips whose fix writes the very same thing in the language's spelling, so that no note, duration or mark can be another
 * than was meant: all that a code reports, or what `is` finds among it. Every other fix is a guess, however likely.
 */
const SURE: { readonly [code in SyntaxCode]?: (written: string, fixed: string) => boolean } = {
  'colon-missing': () => true,
  'motif-equals': () => true,
  'hints-empty': () => true,
  'duration-dots': () => true,
  // H is another note in another country, and so is a small b.
  'pitch-letter': (written, fixed) => written.toUpperCase() === fixed.toUpperCase() && !/^b/.test(written),
  accidental: (written, fixed) => signs(written) === signs(fixed),
  'circle-misplaced': (written, fixed) => fixed.endsWith('o') && written.slice(0, -1) === fixed.slice(0, -1),
  'unknown-hint': (written, fixed) => written.replace(/\s+/g, '-') === fixed,
  stray: (written) => /^[,;]+$/.test(written),
};

/** Does the fix of a slip write the very same thing? */
export function isSure(code: string, written: string, fixed: string): boolean {
  return SURE[code as SyntaxCode]?.(written, fixed) ?? false;
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
