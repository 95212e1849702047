import { absolute } from '../../grammar/at';
import { nearest } from '../../grammar/nearest';
import type { Line, Span, Tree } from '../../grammar/tree';
import { t } from '../l10n/translate';
import type { Problem, Severity } from './rule';

/** How loudly a rule speaks; `off` silences it. */
export type Level = Severity | 'off';
/** Levels by rule code; a rule that is not named keeps its own severity. */
export type Levels = Readonly<Record<string, Level>>;

/** The codes of what can be wrong with a check comment itself. */
export const COMMENT_CODES = ['unknown-check', 'unknown-level'] as const;

export const LEVELS: readonly Level[] = ['error', 'warning', 'information', 'hint', 'off'];

/** What somebody who writes such a comment most likely means, first. */
const LIKELY: readonly Level[] = [...LEVELS].reverse();

/** What the comments of a file say about rules: for the whole file, and line by line. */
export interface LevelComments {
  readonly file: Levels;
  /** By index into `Tree.lines`. */
  readonly lines: ReadonlyMap<number, Levels>;
  /** Comments that name no rule or no level. */
  readonly problems: readonly Problem[];
}

/**
 * Reads `// check: lone-third off` and `// check file: lone-third off`. After something else it holds for its own
 * line, alone on a line for the next line that is not blank; several orders are parted by commas.
 */
export function levelComments(tree: Tree, codes: readonly string[]): LevelComments {
  const file: Record<string, Level> = {};
  const lines = new Map<number, Record<string, Level>>();
  const problems: Problem[] = [];
  tree.lines.forEach((line, index) => {
    const check = line.node.comment?.check;
    if (!check) return;
    const target = check.file ? undefined : line.node.kind === 'blank' ? nextWritten(tree.lines, index) : index;
    for (const { code, level } of check.levels) {
      if (!codes.includes(code.text)) problems.push(unknown(code.text, absolute(line, code), codes, 'unknown-check', noCheck));
      else if (!level) problems.push(noLevel(absolute(line, code)));
      else if (!isLevel(level.text))
        problems.push(unknown(level.text, absolute(line, level), LEVELS, 'unknown-level', noLevelOf, LIKELY));
      else if (check.file) file[code.text] = level.text;
      else if (target !== undefined) lines.set(target, { ...lines.get(target), [code.text]: level.text });
    }
  });
  return { file, lines, problems };
}

function nextWritten(lines: readonly Line[], from: number): number | undefined {
  for (let index = from + 1; index < lines.length; index++) if (lines[index]?.node.kind !== 'blank') return index;
  return undefined;
}

function isLevel(word: string): word is Level {
  return (LEVELS as readonly string[]).includes(word);
}

function unknown(
  word: string,
  span: Span,
  known: readonly string[],
  code: (typeof COMMENT_CODES)[number],
  tell: (word: string, known: string) => string,
  /** Where nothing is near: what may be meant all the same. */
  otherwise: readonly string[] = [],
): Problem {
  const near = nearest(word, known);
  return {
    code,
    severity: 'warning',
    message: tell(word, (near.length ? near : known).join(', ')),
    span,
    fixes: (near.length ? near : otherwise).map((text) => ({ title: t('Write {text}', { text }), edits: [{ span, text }] })),
  };
}

function noCheck(word: string, known: string): string {
  return t('There is no check called “{word}”, so this comment changes nothing. Write one of: {known}.', { word, known });
}

function noLevelOf(word: string, known: string): string {
  return t('There is no level for a check called “{word}”, so this comment changes nothing. Write one of: {known}.', {
    word,
    known,
  });
}

function noLevel(span: Span): Problem {
  const after = { start: span.end, end: span.end };
  return {
    code: 'unknown-level',
    severity: 'warning',
    message: t('This comment names no level, so it changes nothing. Write one of: {levels}.', { levels: LEVELS.join(', ') }),
    span,
    fixes: LIKELY.map((level) => ({
      title: t('Write {level} after it', { level }),
      edits: [{ span: after, text: ` ${level}` }],
    })),
  };
}
