import { caretAt } from '../../grammar/caret';
import { questionOf } from '../../grammar/hints';
import { t } from '../l10n/translate';
import { HINT_WORDS, type HintWord } from './hint-words';
import type { Reading } from './reading';

/** What may stand between the brackets, shown while typing there: the questions, and which one the caret is at. */
export interface HintHelp {
  readonly label: string;
  readonly documentation: string;
  /** Pieces of `label`. */
  readonly parts: readonly { readonly start: number; readonly end: number; readonly documentation: string }[];
  readonly active: number;
}

const QUESTIONS: readonly { readonly group: HintWord['group']; readonly label: string }[] = [
  { group: 'string', label: 'string I–IV' },
  { group: 'finger', label: 'finger 0–4, T, 1-4' },
  { group: 'manner', label: 'open | stopped | natural | artificial' },
  { group: 'interval', label: 'fourth | fifth | third …' },
  { group: 'node', label: 'at 1/3' },
  { group: 'position', label: '3rd' },
  { group: 'breaking', label: '2+2' },
];

export function hintHelp({ tree }: Reading, offset: number): HintHelp | undefined {
  const caret = caretAt(tree, offset);
  if (caret.kind !== 'hints') return undefined;
  const active = activeQuestion(caret.before, tree.text.slice(caret.word.start, caret.word.end));
  let label = '[';
  const parts = QUESTIONS.map((question, index) => {
    if (index > 0) label += '  ';
    const start = label.length;
    label += question.label;
    return { start, end: label.length, documentation: explain(question.group) };
  });
  label += ']';
  return {
    label,
    documentation: t('Hints in any order, each one binding. What is left out is chosen for you.'),
    parts,
    active: QUESTIONS.findIndex(({ group }) => group === active),
  };
}

function explain(group: HintWord['group']): string {
  return HINT_WORDS.filter((word) => word.group === group)
    .map(({ text, meaning }) => `\`${text}\` ${t(meaning)}`)
    .join('  \n');
}

/** Which question the word under the caret answers; with none begun, the first that is still open. */
function activeQuestion(before: readonly string[], word: string): HintWord['group'] {
  const now = questionOf(word, before.at(-1));
  if (now) return now;
  const answered = new Set(before.map((earlier, index) => questionOf(earlier, before[index - 1])));
  return QUESTIONS.find((question) => !answered.has(question.group))?.group ?? 'string';
}
