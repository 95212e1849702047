import { pathAt } from '../../grammar/at';
import { LONGEST_TYPED } from './completion';
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
];

export function hintHelp({ tree }: Reading, offset: number): HintHelp | undefined {
  const { line, column } = pathAt(tree, offset);
  if (column > LONGEST_TYPED) return undefined;
  const before = tree.text.slice(line.start, line.start + column);
  const inside = /\[([^[\]]*)$/.exec(before)?.[1];
  if (inside === undefined || (line.node.kind !== 'music' && line.node.kind !== 'motif')) return undefined;
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
    documentation: 'Hints in any order, each one binding. What is left out is chosen for you.',
    parts,
    active: QUESTIONS.findIndex(({ group }) => group === groupOf(inside)),
  };
}

function explain(group: HintWord['group']): string {
  return HINT_WORDS.filter((word) => word.group === group)
    .map(({ text, meaning }) => `\`${text}\` ${meaning}`)
    .join('  \n');
}

/** Which question the word under the caret answers; with none begun, the first that is still open. */
function groupOf(inside: string): HintWord['group'] {
  const words = inside.split(/\s+/);
  const current = words.at(-1) ?? '';
  const group = (word: string, previous: string | undefined): HintWord['group'] | undefined => {
    if (word === 'at' || previous === 'at' || /^\d+\/\d*$/.test(word)) return 'node';
    if (/^\d+(?:s|n|r|t)/.test(word)) return 'position';
    if (/^(?:[0-4T]|[1-4T]-[1-4]?)$/.test(word)) return 'finger';
    return HINT_WORDS.find(({ text }) => word !== '' && text.startsWith(word))?.group;
  };
  const now = group(current, words.at(-2));
  if (now) return now;
  const answered = new Set(words.slice(0, -1).map((word, index) => group(word, words[index - 1])));
  return QUESTIONS.find((question) => !answered.has(question.group))?.group ?? 'string';
}
