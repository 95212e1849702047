import { lineAt } from '../../grammar/at';
import type { Span } from '../../grammar/tree';

/** Findings that a collection had when it took up checking: by file, fingerprints. They are left out until they change. */
export interface Baseline {
  readonly version: 2;
  /** Files are named from the baseline's own folder, so it holds wherever it is read from. */
  readonly findings: Readonly<Record<string, readonly string[]>>;
}

/** Undefined for what is no baseline of this version. */
export function baselineIn(text: string): Baseline | undefined {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (typeof read !== 'object' || read === null) return undefined;
  const { version, findings } = read as Partial<Baseline>;
  const isOne =
    version === 2 &&
    typeof findings === 'object' &&
    findings !== null &&
    Object.values(findings).every((prints) => Array.isArray(prints) && prints.every((print) => typeof print === 'string'));
  return isOne ? (read as Baseline) : undefined;
}

/** A text with its lines, of which each is where it begins and ends. */
export interface Lined {
  readonly text: string;
  readonly lines: readonly Span[];
}

/** Hexadecimal digits that a fingerprint keeps of the SHA-256 of its subject. */
export const FINGERPRINT_DIGITS = 16;

/** What the fingerprint of each problem is made from: the same for the same problem on the same words of a line, wherever that line has moved to. */
export function fingerprintSubjects(
  tree: Lined,
  problems: readonly { readonly code: string; readonly span: Span }[],
): readonly string[] {
  const seen = new Map<string, number>();
  return problems.map(({ code, span }) => {
    const line = tree.lines[lineAt(tree, span.start)];
    const words = line ? tree.text.slice(line.start, line.end).trim().replace(/\s+/g, ' ') : '';
    const key = `${code}\n${words}`;
    const nth = seen.get(key) ?? 0;
    seen.set(key, nth + 1);
    return `${key}\n${nth}`;
  });
}
