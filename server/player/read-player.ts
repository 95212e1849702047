import { lifted, liftedFix } from '../../grammar/at';
import { cantBeRead, faultProblem } from '../../grammar/entry';
import { linesOf } from '../../grammar/parse';
import type { PlayerKey } from '../../grammar/player-keys';
import { type AttemptsLine, type PlayerLineNode, readPlayerLine } from '../../grammar/player-line';
import { type PlayerCode, replacement } from '../../grammar/problems';
import type { LineOf, Span, SyntaxProblem, Word } from '../../grammar/tree';
import type { Attempts } from '../hand/attempts';
import { t } from '../l10n/translate';
import { chooseTried, triedKey } from './attempt-words';
import { beyondReach } from './comfort';
import { type PlayerFile, type PlayerLine, type PlayerProblem, playerFamily } from './player-file';
import { chooseOwn, type PlayerValues } from './player-values';

/** More problems than this in one file help nobody. */
const MOST_PROBLEMS = 100;
/** More attempts than a life has room for are a slip of the pen. */
export const MOST_ATTEMPTS = 1_000_000;

type Line = LineOf<PlayerLineNode>;
type Tell = (line: Line, problem: SyntaxProblem, severity?: PlayerProblem['severity']) => void;

/**
 * Reads a player file. Any text gives a player: what can't be read is reported at its place and left out, the rest
 * counts. Never throws.
 */
export function readPlayer(text: string): PlayerFile {
  const problems: PlayerProblem[] = [];
  const tell: Tell = ({ start }, problem, severity = 'error') => {
    if (problems.length >= MOST_PROBLEMS) return;
    problems.push({
      code: problem.code as PlayerCode,
      severity,
      span: lifted(problem, start),
      message: problem.message,
      get fixes() {
        return problem.fixes.map((fix) => liftedFix(fix, start));
      },
    });
  };
  const nodes = linesOf(text, readPlayerLine);
  for (const line of nodes) for (const problem of line.node.problems) tell(line, problem);
  const values = readValues(nodes, tell);
  const lines = nodes.map((line) => lineOf(line, tell));
  problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  return { text, lines, values, experience: experienceOf(lines), problems };
}

function readValues(lines: readonly Line[], tell: Tell): Partial<PlayerValues> {
  const values: { -readonly [K in PlayerKey]?: PlayerValues[K] } = {};
  const seen = new Map<PlayerKey, { readonly line: Line; readonly key: Word }>();
  // The instrument first: it says which fingers have a reach.
  for (const only of [true, false]) {
    for (const line of lines) {
      const { node } = line;
      if (node.kind !== 'entry' || !node.name || (node.name === 'instrument') !== only) continue;
      const { name, key, parts } = node;
      const before = seen.get(name);
      const why = t('This {name} is set again further down, and that one counts. Remove one of them.', { name });
      if (before) tell(before.line, told('player-twice', before.key, why), 'warning');
      seen.set(name, { line, key });
      const reading = parts && chooseOwn(name, parts, playerFamily(values));
      if (reading && 'value' in reading) Object.assign(values, { [name]: reading.value });
      if (reading && 'faults' in reading) {
        for (const fault of reading.faults) tell(line, faultProblem('player-value', cantBeRead(name, fault.why), fault));
      }
    }
  }
  const limit = seen.get('comfort');
  const why = limit && values.comfort && beyondReach(values.comfort, values.hand, playerFamily(values));
  if (limit && why) {
    const message = t("{why} What is comfortable can't lie beyond it; measure both again.", { why });
    tell(limit.line, told('player-value', limit.key, message), 'warning');
  }
  return values;
}

function told(code: PlayerCode, { start, end }: Span, message: string, fixes: SyntaxProblem['fixes'] = []): SyntaxProblem {
  return { code, start, end, message, fixes };
}

/** A line as other rooms see it, its attempts checked. */
function lineOf(line: Line, tell: Tell): PlayerLine {
  const { start, end, node } = line;
  if (node.kind === 'blank') return { start, end };
  const at = (word: Word): Word => ({ ...lifted(word, start), text: word.text });
  const read = { start, end, key: at(node.key), value: at(node.value) };
  if (node.kind === 'entry') return { ...read, ...(node.name && { name: node.name }) };
  return { ...read, ...attemptOf(line, node, tell) };
}

function attemptOf(line: Line, { tried, counts, value }: AttemptsLine, tell: Tell): Pick<PlayerLine, 'attempt'> {
  const what = tried && chooseTried(tried);
  if (what && 'faults' in what) {
    for (const fault of what.faults)
      tell(line, faultProblem('player-attempt', t("What was tried can't be read: {why}.", { why: fault.why }), fault));
  }
  if (!what || !counts || 'faults' in what) return {};
  const [clean, all] = [counts.clean.value, counts.tried.value];
  if (clean > all) {
    const why = t("{clean} of {all} can't be: no more can come out clean than were tried. The clean ones come first.", {
      clean,
      all,
    });
    tell(line, told('player-attempt', value, why, [replacement(value, `${all} of ${clean}`)]));
  } else if (all > MOST_ATTEMPTS) {
    const why = t('{all} attempts are more than anybody makes; write at most {most}.', { all, most: MOST_ATTEMPTS });
    tell(line, told('player-attempt', counts.tried, why));
  } else if (!Number.isInteger(clean) || !Number.isInteger(all)) {
    const why = t('Attempts are counted in whole numbers, as in 4 of 10.');
    tell(line, told('player-attempt', value, why, [replacement(value, `${Math.floor(clean)} of ${Math.ceil(all)}`)]));
  } else return { attempt: { tried: what.value, attempts: { clean, tried: all } } };
  return {};
}

function experienceOf(lines: readonly PlayerLine[]): PlayerFile['experience'] {
  const all: Record<string, Attempts> = {};
  for (const { attempt } of lines) {
    if (!attempt) continue;
    const key = triedKey(attempt.tried);
    const { clean, tried } = all[key] ?? { clean: 0, tried: 0 };
    all[key] = { clean: clean + attempt.attempts.clean, tried: tried + attempt.attempts.tried };
  }
  return all;
}
