import { absolute, pathAt } from '../../grammar/at';
import { lineBreakOf } from '../../grammar/parse';
import type { Edit, Span, Tree } from '../../grammar/tree';
import { t } from '../l10n/translate';
import type { Passage } from '../passage/passage';
import type { Settings } from '../protocol/settings';
import { often } from '../scene/words';
import type { Action } from './action';
import { passageOn } from './locate';
import type { SolvedReading } from './reading';
import { safeTempo } from './safe-tempo';

/** Checks that a slower tempo answers. */
const TEMPO_CHECKS: ReadonlySet<string> = new Set(['tempo-risk', 'far-shift']);

/**
 * Slows a passage down to where it comes out clean as often as the settings ask. Offered where tempo is what it is about:
 * on the passage's name, on its tempo, and at a note that is at risk at this tempo.
 */
export function tempoActions(reading: SolvedReading, span: Span, { safeChance }: Settings): readonly Action[] {
  const { line, index } = pathAt(reading.tree, span.start);
  const { node } = line;
  const named = node.kind === 'passage' || (node.kind === 'setting' && node.key.text === 'tempo');
  if (!named && !atRisk(reading, span)) return [];
  const solution = reading.solutions[passageOn(reading.resolved.passages, index)];
  const written = solution?.passage.events[0]?.tempo;
  if (!solution || !written || solution.clean >= safeChance) return [];
  const safe = safeTempo(solution, safeChance);
  if (!safe || safe.bpm >= written.bpm) return [];
  const tempo = `${safe.beat.toFraction()} = ${safe.bpm}`;
  return [
    {
      title: t('Lower the tempo to {tempo}, clean {chance}', { tempo, chance: often(safeChance) }),
      kind: 'rewrite',
      edits: tempoEdits(reading.tree, solution.passage, safe.bpm / written.bpm, tempo),
    },
  ];
}

function atRisk({ problems }: SolvedReading, { start, end }: Span): boolean {
  return problems.some(({ code, span }) => TEMPO_CHECKS.has(code) && span.start <= end && start <= span.end);
}

/** All tempos of the passage slower by the same measure; where it has none of its own, the first one written into it. */
function tempoEdits(tree: Tree, { lines, title }: Passage, times: number, tempo: string): readonly Edit[] {
  const own: Edit[] = [];
  for (const line of tree.lines.slice(lines.first, lines.end)) {
    if (line.node.kind !== 'setting' || !line.node.parts || !('bpm' in line.node.parts)) continue;
    const { bpm } = line.node.parts;
    const slower = Math.max(1, Math.floor(bpm.value * times + 1e-9));
    own.push({ span: absolute(line, bpm), text: String(slower) });
  }
  if (own.length > 0) return own;
  const head = tree.lines[lines.first];
  if (!head) return [];
  const named = head.node.kind === 'passage' || title !== '';
  const at = named ? head.end : head.start;
  const text = named ? `${lineBreakOf(tree.text)}tempo: ${tempo}` : `tempo: ${tempo}${lineBreakOf(tree.text)}`;
  return [{ span: { start: at, end: at }, text }];
}
